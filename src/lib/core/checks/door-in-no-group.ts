import { nameOf } from '../document/names';
import { defineCheck } from './define-check';

export default defineCheck({
	code: 'door-in-no-group',
	severity: 'warning',
	title: 'Door in no group',
	why: 'Access is given by door groups; a door in none opens for nobody.',
	mend: 'Put it into a door group, or leave it so knowingly.',
	source: 'Rollout document, findings',
	mendAt: ({ door }) => `site?door=${encodeURIComponent(String(door))}`,
	dependsOn: ({ doors, doorGroups }) => [doors, doorGroups],
	find: ({ rollout }) => {
		const grouped = new Set(rollout.doorGroups.flatMap((group) => group.doors));
		return rollout.doors.flatMap(({ id }) => (grouped.has(id) ? [] : [{ subject: { door: id } }]));
	},
	message: ({ subject }, rollout) =>
		`Door ${nameOf(rollout.doors, subject['door'])} is in no door group, so nobody may open it.`
});
