import { z } from 'zod';
import { date, entry, id, maybe } from '../document/fields';
import { type EntryOf, entriesOf, withEntries } from '../document/lists';
import { fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { ok, refused } from '../kernel/result';
import { defineEdit } from './define-edit';

/** Records that people were told of their appointment, or that they were not. */
export default defineEdit({
	name: 'mark-told',
	summary: 'Records that one or several people were told of their appointment on a date, or takes that back.',
	params: entry({
		people: z.array(id, { error: 'a list of ids of people' }).min(1, { error: 'at least one person' }),
		on: maybe(date).describe('When they were told; null where they were not')
	}),
	apply(document, { people, on }) {
		const bookings = entriesOf(document, 'bookings');
		const booked = new Set(bookings.map(({ person }) => person));
		const faults = people.flatMap((person, index) =>
			booked.has(person)
				? []
				: [fault(['people', index], person, 'somebody who is booked', nearestName(person, [...booked]))]
		);
		if (faults.length > 0) return refused(faults);
		const wanted = new Set(people);
		const next = bookings.map((booking): EntryOf<'bookings'> => {
			if (!wanted.has(booking.person) || (booking.toldOn ?? null) === on) return booking;
			const { toldOn: _, ...rest } = booking;
			if (on === null) return rest;
			const { toldOf: __, ...known } = rest;
			return { ...known, toldOn: on };
		});
		return ok(next.some((one, place) => one !== bookings[place]) ? withEntries(document, 'bookings', next) : document);
	},
	describe({ people, on }) {
		const who = people.length === 1 ? String(people[0]) : `${people.length} people`;
		return on === null ? `${who} not told of the appointment after all` : `${who} told of the appointment on ${on}`;
	}
});
