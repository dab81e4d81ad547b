import { z } from 'zod';
import { canonicalJson } from '../document/canonical';
import { type EntryOf, entriesOf, withEntries } from '../document/lists';
import { ok } from '../kernel/result';
import { defineEdit } from './define-edit';
import { entriesParam } from './support/params';

/** Replaces all bookings, as when a plan is adopted. */
export default defineEdit({
	name: 'set-bookings',
	summary: 'Replaces all bookings, as when a plan is adopted.',
	params: z.strictObject({ bookings: entriesParam.describe('Every booking that there shall be') }),
	apply(document, { bookings }) {
		const present = new Map(entriesOf(document, 'bookings').map((booking) => [canonicalJson(booking), booking]));
		// A booking that stays is the same entry as before, and keeps its history.
		const next = bookings.map((booking) => present.get(canonicalJson(booking)) ?? (booking as EntryOf<'bookings'>));
		return ok(withEntries(document, 'bookings', next));
	},
	placed: () => [{ param: ['bookings'], at: ['enrollment', 'bookings'] }],
	describe: ({ bookings }, before) => {
		const were = entriesOf(before, 'bookings').length;
		return `Bookings replaced: ${were} before, ${bookings.length} now`;
	},
	remember: ({ bookings }) => ({ bookings: bookings.length })
});
