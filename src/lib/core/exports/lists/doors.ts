import { nameOf } from '../../document/names';
import type { Door } from '../../document/schema';
import { defineList } from './define-list';

export default defineList<Door>({
	name: 'doors',
	title: 'Doors',
	summary:
		'A row for each door: the areas that it joins, how one leaves, what its reader asks for, its controller and groups.',
	sheet: 'site',
	columns({ rollout }) {
		const groupsByDoor = new Map<string, string[]>();
		for (const group of rollout.doorGroups) {
			for (const door of new Set(group.doors)) {
				groupsByDoor.set(door, [...(groupsByDoor.get(door) ?? []), nameOf(rollout.doorGroups, group.id)]);
			}
		}
		return [
			{ key: 'id', label: 'Door id', type: 'text', value: ({ id }) => id },
			{ key: 'name', label: 'Door', type: 'text', value: ({ name }) => name },
			{ key: 'from', label: 'From area', type: 'text', value: ({ from }) => nameOf(rollout.areas, from) },
			{ key: 'to', label: 'To area', type: 'text', value: ({ to }) => nameOf(rollout.areas, to) },
			{ key: 'exit', label: 'Exit', type: 'text', value: ({ exit }) => exit },
			{ key: 'identify', label: 'Asks for', type: 'text', value: ({ identify }) => identify },
			{
				key: 'controller',
				label: 'Controller',
				type: 'text',
				value: ({ controller }) => (controller === null ? null : nameOf(rollout.controllers, controller))
			},
			{ key: 'groups', label: 'Door groups', type: 'text', value: ({ id }) => (groupsByDoor.get(id) ?? []).join('; ') },
			{ key: 'owner', label: 'Owner', type: 'text', value: ({ owner }) => owner }
		];
	},
	rows: ({ rollout }) => rollout.doors
});
