import { nameOf } from '../../document/names';
import type { Reader } from '../../document/schema';
import { defineList } from './define-list';

export default defineList<Reader>({
	name: 'readers',
	title: 'Readers',
	summary: 'A row for each reader: its door, its controller, its module and the current that it draws.',
	sheet: 'controllers',
	columns({ rollout }) {
		const doorById = new Map(rollout.doors.map((door) => [door.id, door]));
		return [
			{ key: 'id', label: 'Reader', type: 'text', value: ({ id }) => id },
			{ key: 'door', label: 'Door', type: 'text', value: ({ door }) => nameOf(rollout.doors, door) },
			{
				key: 'controller',
				label: 'Controller',
				type: 'text',
				value({ controller, door }) {
					const named = controller ?? doorById.get(door)?.controller ?? null;
					return named === null ? null : nameOf(rollout.controllers, named);
				}
			},
			{ key: 'module', label: 'Module', type: 'text', value: ({ module }) => module },
			{ key: 'milliamps', label: 'mA', type: 'number', value: ({ milliamps }) => milliamps }
		];
	},
	rows: ({ rollout }) => rollout.readers
});
