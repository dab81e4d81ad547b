import { matchingAssignments } from '../../access/matching';
import { nameOf } from '../../document/names';
import type { Assignment } from '../../document/schema';
import { defineList } from './define-list';

export default defineList<Assignment>({
	name: 'assignments',
	title: 'Assignments',
	summary: 'A row for each assignment: who is given which access profile, from when until when, and who approved it.',
	sheet: 'profiles',
	columns({ rollout }) {
		const matching = matchingAssignments(rollout);
		let counts: number[] | undefined;
		const countOf = (assignment: Assignment): number => {
			if (counts === undefined) {
				counts = rollout.assignments.map(() => 0);
				for (const person of rollout.people)
					for (const place of matching(person)) counts[place] = (counts[place] ?? 0) + 1;
			}
			return counts[rollout.assignments.indexOf(assignment)] ?? 0;
		};
		return [
			{ key: 'id', label: 'Assignment', type: 'text', value: ({ id }) => id },
			{
				key: 'accessProfile',
				label: 'Access profile',
				type: 'text',
				value: ({ accessProfile }) => nameOf(rollout.accessProfiles, accessProfile)
			},
			{ key: 'everyone', label: 'Everyone', type: 'yes-no', value: ({ who }) => who.everyone },
			{ key: 'people', label: 'People', type: 'text', value: ({ who }) => who.people.join('; ') },
			{ key: 'departments', label: 'Departments', type: 'text', value: ({ who }) => who.departments.join('; ') },
			{ key: 'jobs', label: 'Jobs', type: 'text', value: ({ who }) => who.jobs.join('; ') },
			{
				key: 'waves',
				label: 'Waves',
				type: 'text',
				value: ({ who }) => who.waves.map((wave) => nameOf(rollout.enrollment.waves, wave)).join('; ')
			},
			{ key: 'matched', label: 'People matched', type: 'number', value: countOf },
			{ key: 'from', label: 'From', type: 'date', value: ({ from }) => from },
			{ key: 'until', label: 'Until', type: 'date', value: ({ until }) => until },
			{ key: 'approvedBy', label: 'Approved by', type: 'text', value: ({ approvedBy }) => approvedBy }
		];
	},
	rows: ({ rollout }) => rollout.assignments
});
