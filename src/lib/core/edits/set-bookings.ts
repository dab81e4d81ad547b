import { entry } from '../document/fields';
import { canonicalJson } from '../document/canonical';
import { type EntryOf, entriesOf, withEntries } from '../document/lists';
import { withTelling } from '../enrollment/told';
import { ok } from '../kernel/result';
import { defineEdit } from './define-edit';
import { entriesParam } from './support/params';

/** What makes two bookings the same time of the same person. */
function sameTime({ person, station, lane, start, minutes }: EntryOf<'bookings'>): string {
	return canonicalJson([person, station, lane ?? 1, start, minutes]);
}

/** Replaces all bookings, as when a plan is adopted. */
export default defineEdit({
	name: 'set-bookings',
	summary: 'Replaces all bookings, as when a plan is adopted.',
	params: entry({ bookings: entriesParam.describe('Every booking that there shall be') }),
	apply(document, { bookings }) {
		const present = new Map(entriesOf(document, 'bookings').map((booking) => [sameTime(booking), booking]));
		const byPerson = new Map(entriesOf(document, 'bookings').map((booking) => [booking.person, booking]));
		// A booking that stays is the same entry as before: it keeps its history, and stays fixed, of which a plan says nothing.
		const next = bookings.map((given) => {
			const booking = given as EntryOf<'bookings'>;
			const before = present.get(sameTime(booking));
			if (before && (booking.fixed ?? before.fixed) === before.fixed) return before;
			// What a person was told is known of their booking before, and by no plan.
			return booking.toldOn || booking.toldOf ? booking : withTelling(byPerson.get(booking.person), booking);
		});
		return ok(withEntries(document, 'bookings', next));
	},
	placed: () => [{ param: ['bookings'], at: ['enrollment', 'bookings'] }],
	describe: ({ bookings }, before) => {
		const were = entriesOf(before, 'bookings').length;
		return `Bookings replaced: ${were} before, ${bookings.length} now`;
	},
	remember: ({ bookings }) => ({ bookings: bookings.length })
});
