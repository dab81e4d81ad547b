import { weekdays } from '../../calendar/local-date';
import type { Rollout, Schedule } from '../../document/schema';
import { type Column, defineList } from './define-list';

const dayLabels = {
	mon: 'Monday',
	tue: 'Tuesday',
	wed: 'Wednesday',
	thu: 'Thursday',
	fri: 'Friday',
	sat: 'Saturday',
	sun: 'Sunday'
} as const;

export default defineList<Schedule>({
	name: 'schedules',
	title: 'Time schedules',
	summary:
		'A row for each schedule with its stretches by weekday; one that ends at or before its start runs past midnight.',
	sheet: 'schedules',
	columns: ({ rollout }) => [
		{ key: 'id', label: 'Schedule id', type: 'text', value: ({ id }) => id },
		{ key: 'name', label: 'Schedule', type: 'text', value: ({ name }) => name },
		{ key: 'from', label: 'From', type: 'date', value: ({ from }) => from },
		{ key: 'until', label: 'Until', type: 'date', value: ({ until }) => until },
		...weekdays.map((day): Column<Schedule> => ({
			key: day,
			label: dayLabels[day],
			type: 'text',
			value: ({ week }) => week[day].join(' ')
		})),
		...kindsOf(rollout).map((kind): Column<Schedule> => ({
			key: `kind:${kind}`,
			label: `On ${kind}`,
			type: 'text',
			value({ holidays }) {
				const treatment = Object.hasOwn(holidays, kind) ? holidays[kind] : null;
				if (treatment === null || treatment === undefined) return 'not decided';
				return typeof treatment === 'string' ? treatment : treatment.join(' ');
			}
		}))
	],
	rows: ({ rollout }) => rollout.schedules
});

/** Every kind that is listed, or that a schedule says something of. */
function kindsOf({ holidays, schedules }: Rollout): string[] {
	const ofSchedules = schedules.flatMap((schedule) => Object.keys(schedule.holidays));
	return [...new Set([...holidays.days.map(({ kind }) => kind), ...ofSchedules])].sort();
}
