import { nameOf } from '../document/names';
import { defineCheck } from './define-check';

export default defineCheck({
	code: 'assignment-matches-nobody',
	severity: 'warning',
	title: 'Assignment that matches nobody',
	why: 'Often a department or a job that is spelled differently in the roster: those people then lack access.',
	mend: 'Correct the departments, jobs, waves or people that it names, or remove it.',
	source: 'Rollout document, findings',
	mendAt: ({ assignment }) => `profiles?assignment=${encodeURIComponent(String(assignment))}`,
	find: ({ rollout, access }) => {
		const matched = new Set(access.classes.flatMap(({ assignments }) => assignments));
		return rollout.assignments.flatMap(({ id }, place) =>
			matched.has(place) ? [] : [{ subject: { assignment: id } }]
		);
	},
	message: ({ subject }, rollout) => {
		const assignment = rollout.assignments.find(({ id }) => id === subject['assignment']);
		return `Assignment ${String(subject['assignment'])} of ${nameOf(rollout.accessProfiles, assignment?.accessProfile)} matches nobody.`;
	}
});
