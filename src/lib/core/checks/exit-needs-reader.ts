import { nameOf } from '../document/names';
import { defineCheck } from './define-check';

export default defineCheck({
	code: 'exit-needs-reader',
	severity: 'warning',
	title: 'Exit needs a reader',
	why: 'Leaving through this door asks for a credential. People must always be able to get out.',
	mend: 'Confirm free egress with the authority having jurisdiction, or set the exit to free.',
	source: 'NFPA 101 (2006) 7.1.10.1, means of egress kept free to full instant use, as reported by ecmag.com',
	mendAt: ({ door }) => `site?door=${encodeURIComponent(String(door))}`,
	dependsOn: ({ doors }) => [doors],
	find: ({ rollout }) =>
		rollout.doors.flatMap(({ id, exit }) => (exit === 'reader' ? [{ subject: { door: id } }] : [])),
	message: ({ subject }, rollout) =>
		`Leaving through ${nameOf(rollout.doors, subject['door'])} needs a reader: confirm free egress with the authority having jurisdiction.`
});
