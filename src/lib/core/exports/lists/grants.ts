import { matchingAssignments } from '../../access/matching';
import { nameOf } from '../../document/names';
import type { Assignment, Person } from '../../document/schema';
import { defineList } from './define-list';

interface Grant {
	readonly person: Person;
	readonly assignment: Assignment;
	readonly door: string;
	readonly doorGroup: string;
	readonly schedule: string;
}

export default defineList<Grant>({
	name: 'grants',
	title: 'Who is given which door, and by what',
	summary: 'A row for each person, door and reason: assignment, access profile, door group, schedule.',
	sheet: 'access',
	columns: ({ rollout }) => [
		{ key: 'person', label: 'Staff number', type: 'text', value: ({ person }) => person.id },
		{ key: 'name', label: 'Name', type: 'text', value: ({ person }) => person.name },
		{ key: 'department', label: 'Department', type: 'text', isExtra: true, value: ({ person }) => person.department },
		{ key: 'door', label: 'Door', type: 'text', value: ({ door }) => nameOf(rollout.doors, door) },
		{ key: 'doorId', label: 'Door id', type: 'text', isExtra: true, value: ({ door }) => door },
		{ key: 'schedule', label: 'Schedule', type: 'text', value: ({ schedule }) => nameOf(rollout.schedules, schedule) },
		{ key: 'doorGroup', label: 'Door group', type: 'text', value: (row) => nameOf(rollout.doorGroups, row.doorGroup) },
		{
			key: 'accessProfile',
			label: 'Access profile',
			type: 'text',
			value: ({ assignment }) => nameOf(rollout.accessProfiles, assignment.accessProfile)
		},
		{ key: 'assignment', label: 'Assignment', type: 'text', value: ({ assignment }) => assignment.id },
		{ key: 'from', label: 'From', type: 'date', value: ({ assignment }) => assignment.from },
		{ key: 'until', label: 'Until', type: 'date', value: ({ assignment }) => assignment.until },
		{ key: 'approvedBy', label: 'Approved by', type: 'text', value: ({ assignment }) => assignment.approvedBy }
	],
	*rows({ rollout }) {
		const matching = matchingAssignments(rollout);
		const groupById = new Map(rollout.doorGroups.map((group) => [group.id, group]));
		const profileById = new Map(rollout.accessProfiles.map((profile) => [profile.id, profile]));
		for (const person of rollout.people) {
			for (const place of matching(person)) {
				const assignment = rollout.assignments[place];
				if (assignment === undefined) continue;
				for (const { doorGroup, schedule } of profileById.get(assignment.accessProfile)?.entries ?? []) {
					for (const door of groupById.get(doorGroup)?.doors ?? []) {
						yield { person, assignment, door, doorGroup, schedule };
					}
				}
			}
		}
	}
});
