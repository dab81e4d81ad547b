import type { EntryOf } from '../../document/lists';
import type { PlannedBooking } from '../validity';
import type { Replan } from './replan';

type Raw = EntryOf<'bookings'>;

/**
 * Every booking of a document once a plan made anew is accepted: entries that stay are the same objects, at their places, those
 * that are over among them; a moved one stands where the one before stood; one that no longer holds and found no room is gone.
 */
export function acceptedBookings(
	bookings: readonly Raw[],
	{ changes, repeated }: Pick<Replan, 'changes' | 'repeated'>
): Raw[] {
	const after = new Map(changes.flatMap((one) => (one.before ? [[keyOf(one.before), one.after] as const] : [])));
	const gone = new Set(repeated.map(keyOf));
	const changed = bookings.flatMap((booking): Raw[] => {
		const key = keyOf(booking);
		if (gone.has(key)) return [];
		const next = after.get(key);
		if (next === undefined) return [booking];
		return next === null ? [] : [next];
	});
	const added = changes.flatMap(({ before, after: to }): Raw[] => (before === null && to !== null ? [to] : []));
	return [...changed, ...added];
}

function keyOf({ person, station, lane, start }: Raw | PlannedBooking): string {
	return JSON.stringify([person, station, lane ?? 1, start]);
}
