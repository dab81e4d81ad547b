import { matchingAssignments } from '../access/matching';
import { nameOf } from '../document/names';
import { defineExport } from './define-export';
import { csvOf } from './support/csv';

export default defineExport({
	name: 'grants-csv',
	title: 'Who is given which door, and by what',
	summary:
		'A row for each person, door and reason: assignment, profile, door group, schedule. The minutes themselves follow from the schedule; ask for them on sheet A-4.',
	files({ rollout }) {
		const matching = matchingAssignments(rollout);
		const groupById = new Map(rollout.doorGroups.map((group) => [group.id, group]));
		const profileById = new Map(rollout.accessProfiles.map((profile) => [profile.id, profile]));
		const rows = rollout.people.flatMap((person) =>
			matching(person).flatMap((place) => {
				const assignment = rollout.assignments[place];
				const profile = assignment && profileById.get(assignment.accessProfile);
				return (profile?.entries ?? []).flatMap(({ doorGroup, schedule }) =>
					(groupById.get(doorGroup)?.doors ?? []).map((door) => [
						person.id,
						person.name,
						nameOf(rollout.doors, door),
						nameOf(rollout.schedules, schedule),
						nameOf(rollout.doorGroups, doorGroup),
						nameOf(rollout.accessProfiles, profile?.id),
						assignment?.id ?? '',
						assignment?.from ?? null,
						assignment?.until ?? null,
						assignment?.approvedBy ?? null
					])
				);
			})
		);
		if (rows.length === 0) return [];
		const header = 'Staff number,Name,Door,Schedule,Door group,Access profile,Assignment,From,Until,Approved by';
		return [
			{
				name: 'grants.csv',
				type: 'text/csv',
				content: () => csvOf(header.split(','), rows),
				about: `${rows.length} rows`
			}
		];
	}
});
