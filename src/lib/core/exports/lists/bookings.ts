import { nameOf } from '../../document/names';
import type { Booking, Person } from '../../document/schema';
import { byCodeUnits } from '../../kernel/compare';
import { type Column, defineList } from './define-list';

export default defineList<Booking>({
	name: 'bookings',
	title: 'Bookings',
	summary:
		'A row for each booking: who comes to which station, in which lane, when and for how long; in the order of time.',
	sheet: 'plan',
	columns({ rollout }) {
		const personById = new Map(rollout.people.map((person) => [person.id, person]));
		const ofPerson = (key: string, label: string, value: (person: Person) => string | null): Column<Booking> => ({
			key,
			label,
			type: 'text',
			value({ person }) {
				const found = personById.get(person);
				return found === undefined ? null : value(found);
			}
		});
		return [
			{ key: 'date', label: 'Date', type: 'date', value: ({ start }) => start.slice(0, 10) },
			{ key: 'start', label: 'Start', type: 'text', value: ({ start }) => start.slice(11) },
			{ key: 'startsAt', label: 'Date and start', type: 'date-time', isExtra: true, value: ({ start }) => start },
			{
				key: 'station',
				label: 'Station',
				type: 'text',
				value: (row) => nameOf(rollout.enrollment.stations, row.station)
			},
			{ key: 'lane', label: 'Lane', type: 'number', value: ({ lane }) => lane },
			{ key: 'minutes', label: 'Minutes', type: 'number', value: ({ minutes }) => minutes },
			{ key: 'person', label: 'Staff number', type: 'text', value: ({ person }) => person },
			ofPerson('name', 'Name', ({ name }) => name),
			ofPerson('department', 'Department', ({ department }) => department),
			ofPerson('language', 'Language', ({ language }) => language),
			{ ...ofPerson('email', 'E-mail', ({ email }) => email), isExtra: true },
			{ ...ofPerson('needs', 'Needs', ({ needs }) => needs.join('; ')), isExtra: true },
			{ key: 'fixed', label: 'Fixed', type: 'yes-no', value: ({ fixed }) => fixed }
		];
	},
	rows: ({ rollout }) =>
		rollout.enrollment.bookings.toSorted(
			(a, b) => byCodeUnits(a.start + a.station, b.start + b.station) || a.lane - b.lane
		)
});
