import type { Controller } from '../../document/schema';
import { type Column, defineList } from './define-list';

const limits = [
	['maxDoors', 'Most doors'],
	['maxTemplates', 'Most templates'],
	['maxSchedules', 'Most schedules'],
	['maxHolidays', 'Most holidays'],
	['supplyMilliamps', 'Supply in mA']
] as const;

export default defineList<Controller>({
	name: 'controllers',
	title: 'Controllers',
	summary: 'A row for each controller with its limits; an empty limit is none.',
	sheet: 'controllers',
	columns({ rollout }) {
		const controllerOf = new Map(rollout.doors.map((door) => [door.id, door.controller]));
		return [
			{ key: 'id', label: 'Controller id', type: 'text', value: ({ id }) => id },
			{ key: 'name', label: 'Controller', type: 'text', value: ({ name }) => name },
			...limits.map(([key, label]): Column<Controller> => ({
				key,
				label,
				type: 'number',
				value: (controller) => controller[key]
			})),
			{
				key: 'doors',
				label: 'Doors',
				type: 'number',
				value: ({ id }) => rollout.doors.filter(({ controller }) => controller === id).length
			},
			{
				key: 'readers',
				label: 'Readers',
				type: 'number',
				isExtra: true,
				value: ({ id }) => rollout.readers.filter((one) => (one.controller ?? controllerOf.get(one.door)) === id).length
			}
		];
	},
	rows: ({ rollout }) => rollout.controllers
});
