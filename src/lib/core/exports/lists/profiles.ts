import { nameOf } from '../../document/names';
import type { AccessProfile } from '../../document/schema';
import { defineList } from './define-list';

interface Row {
	readonly profile: AccessProfile;
	readonly doorGroup: string | null;
	readonly schedule: string | null;
}

export default defineList<Row>({
	name: 'profiles',
	title: 'Access profiles',
	summary: 'A row for each entry of each access profile: a door group and the schedule that it follows.',
	sheet: 'profiles',
	columns({ rollout }) {
		const doorsByGroup = new Map(rollout.doorGroups.map(({ id, doors }) => [id, doors]));
		return [
			{ key: 'id', label: 'Profile id', type: 'text', value: ({ profile }) => profile.id },
			{ key: 'name', label: 'Access profile', type: 'text', value: ({ profile }) => profile.name },
			{
				key: 'doorGroup',
				label: 'Door group',
				type: 'text',
				value: ({ doorGroup }) => (doorGroup === null ? null : nameOf(rollout.doorGroups, doorGroup))
			},
			{
				key: 'doors',
				label: 'Doors',
				type: 'text',
				value: ({ doorGroup }) =>
					(doorsByGroup.get(doorGroup ?? '') ?? []).map((door) => nameOf(rollout.doors, door)).join('; ')
			},
			{
				key: 'schedule',
				label: 'Schedule',
				type: 'text',
				value: ({ schedule }) => (schedule === null ? null : nameOf(rollout.schedules, schedule))
			}
		];
	},
	rows: ({ rollout }) =>
		rollout.accessProfiles.flatMap((profile): Row[] =>
			profile.entries.length === 0
				? [{ profile, doorGroup: null, schedule: null }]
				: profile.entries.map((entry) => ({ profile, ...entry }))
		)
});
