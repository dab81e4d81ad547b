import { byCodeUnits } from '../kernel/compare';
import { nameOf } from '../document/names';
import { defineExport } from './define-export';
import { csvOf } from './support/csv';

export default defineExport({
	name: 'bookings-csv',
	title: 'Bookings',
	summary: 'Who is booked at which station, in which lane, when and for how long; in the order of time.',
	files({ rollout }) {
		const { bookings, stations } = rollout.enrollment;
		if (bookings.length === 0) return [];
		const personById = new Map(rollout.people.map((person) => [person.id, person]));
		const rows = bookings
			.toSorted((a, b) => byCodeUnits(a.start + a.station, b.start + b.station) || a.lane - b.lane)
			.map(({ person, station, lane, start, minutes, fixed }) => [
				start.slice(0, 10),
				start.slice(11),
				nameOf(stations, station),
				lane,
				minutes,
				person,
				personById.get(person)?.name ?? null,
				personById.get(person)?.department ?? null,
				personById.get(person)?.language ?? null,
				fixed ? 'fixed' : null
			]);
		const header = 'Date,Start,Station,Lane,Minutes,Staff number,Name,Department,Language,Fixed';
		return [
			{
				name: 'bookings.csv',
				type: 'text/csv',
				content: () => csvOf(header.split(','), rows),
				about: `${rows.length} bookings`
			}
		];
	}
});
