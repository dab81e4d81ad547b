import { nameOf } from '../../document/names';
import type { Holiday, Schedule } from '../../document/schema';
import { byCodeUnits } from '../../kernel/compare';
import { type Column, defineList } from './define-list';

export default defineList<Holiday>({
	name: 'holidays',
	title: 'Holidays and what schedules do on them',
	summary:
		'A row for each holiday, a column for each schedule: as on an ordinary day, closed, its own stretches, or not decided.',
	sheet: 'holidays',
	columns: ({ rollout }) => [
		{ key: 'date', label: 'Date', type: 'date', value: ({ date }) => date },
		{ key: 'name', label: 'Name', type: 'text', value: ({ name }) => name },
		{ key: 'kind', label: 'Kind', type: 'text', value: ({ kind }) => kind },
		...rollout.schedules.map((schedule): Column<Holiday> => ({
			key: `schedule:${schedule.id}`,
			label: nameOf(rollout.schedules, schedule.id),
			type: 'text',
			value: ({ kind }) => treatmentText(schedule, kind)
		}))
	],
	rows: ({ rollout }) => rollout.holidays.days.toSorted((a, b) => byCodeUnits(a.date, b.date))
});

function treatmentText({ holidays }: Schedule, kind: string): string {
	const treatment = Object.hasOwn(holidays, kind) ? holidays[kind] : null;
	if (treatment === null || treatment === undefined) return 'not decided';
	return typeof treatment === 'string' ? treatment : treatment.join(' ');
}
