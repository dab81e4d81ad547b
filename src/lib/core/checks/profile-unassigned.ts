import { nameOf } from '../document/names';
import { defineCheck } from './define-check';

export default defineCheck({
	code: 'profile-unassigned',
	severity: 'note',
	title: 'Access profile not assigned',
	why: 'Nobody gets it.',
	mend: 'Assign it to people, departments, jobs or waves, or remove it.',
	source: 'Rollout document, findings',
	mendAt: ({ accessProfile }) => `profiles?profile=${encodeURIComponent(String(accessProfile))}`,
	dependsOn: ({ accessProfiles, assignments }) => [accessProfiles, assignments],
	find: ({ rollout }) => {
		const assigned = new Set(rollout.assignments.map(({ accessProfile }) => accessProfile));
		return rollout.accessProfiles.flatMap(({ id }) => (assigned.has(id) ? [] : [{ subject: { accessProfile: id } }]));
	},
	message: ({ subject }, rollout) =>
		`Access profile ${nameOf(rollout.accessProfiles, subject['accessProfile'])} is in no assignment.`
});
