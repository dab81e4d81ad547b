import { byCodeUnits } from '../kernel/compare';
import { nameOf } from '../document/names';
import { defineExport } from './define-export';
import { csvOf } from './support/csv';

export default defineExport({
	name: 'holidays-csv',
	title: 'Holidays and what schedules do on them',
	summary:
		'A row for each holiday, a column for each schedule: as on an ordinary day, closed, its own stretches, or not decided.',
	files({ rollout }) {
		const { days } = rollout.holidays;
		if (days.length === 0) return [];
		const rows = days
			.toSorted((a, b) => byCodeUnits(a.date, b.date))
			.map(({ date, name, kind }) => [
				date,
				name,
				kind,
				...rollout.schedules.map(({ holidays }) => {
					const treatment = Object.hasOwn(holidays, kind) ? holidays[kind] : null;
					if (treatment === null || treatment === undefined) return 'not decided';
					return typeof treatment === 'string' ? treatment : treatment.join(' ');
				})
			]);
		const header = ['Date', 'Name', 'Kind', ...rollout.schedules.map(({ id }) => nameOf(rollout.schedules, id))];
		return [
			{ name: 'holidays.csv', type: 'text/csv', content: () => csvOf(header, rows), about: `${rows.length} holidays` }
		];
	}
});
