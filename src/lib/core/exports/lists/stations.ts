import { nameOf } from '../../document/names';
import type { Station } from '../../document/schema';
import { defineList } from './define-list';

interface Row {
	readonly station: Station;
	readonly date: string | null;
	readonly at: string | null;
}

export default defineList<Row>({
	name: 'stations',
	title: 'Enrollment stations',
	summary: 'A row for each stretch in which a station is open.',
	sheet: 'stations',
	columns: ({ rollout }) => [
		{ key: 'id', label: 'Station id', type: 'text', value: ({ station }) => station.id },
		{ key: 'name', label: 'Station', type: 'text', value: ({ station }) => station.name },
		{ key: 'area', label: 'Area', type: 'text', value: ({ station }) => nameOf(rollout.areas, station.area) },
		{ key: 'lanes', label: 'Lanes', type: 'number', value: ({ station }) => station.lanes },
		{ key: 'turnoverMinutes', label: 'Turnover', type: 'number', value: ({ station }) => station.turnoverMinutes },
		{ key: 'serves', label: 'Serves', type: 'text', value: ({ station }) => station.serves.join('; ') },
		{ key: 'date', label: 'Date', type: 'date', value: ({ date }) => date },
		{ key: 'at', label: 'Open', type: 'text', value: ({ at }) => at }
	],
	rows: ({ rollout }) =>
		rollout.enrollment.stations.flatMap((station): Row[] =>
			station.open.length === 0
				? [{ station, date: null, at: null }]
				: station.open.map(({ date, at }) => ({ station, date, at }))
		)
});
