import { z } from 'zod';
import type { LocalDateTime } from '../calendar/local-date-time';
import { counted, listed, nameOf, personName } from '../document/names';
import type { Rollout } from '../document/schema';
import { type BookingChange, type Replan, replan } from '../enrollment/replan/replan';
import type { PlannedBooking } from '../enrollment/validity';
import { ok } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import { defineAnswer } from './define-answer';
import { dateTimeParam } from './support/params';

const params = z.strictObject({
	from: dateTimeParam.describe('The moment from which on it plans; what lies before it is over')
});

export default defineAnswer<{ from: LocalDateTime }, Replan>({
	name: 'replan',
	summary: 'Plans anew after no-shows, illness or joiners, with as few changes to bookings as it can.',
	params,
	run: (rollout, { from }, work) => Promise.resolve(ok(replan(rollout, from, work))),
	isBad: ({ unbooked }) => unbooked.length > 0,
	text
});

/** Why a booking changes, in words. */
export const changeWords: Readonly<Record<BookingChange['why']['kind'], string>> = {
	missed: 'did not come',
	repeat: 'must come again',
	'no-longer-valid': 'the booking no longer holds',
	new: 'was not booked',
	'made-room': 'moved to make room'
};

const mostShown = 40;

function text(
	{ changes, kept, moved, toldAnew, cost, unbooked, impossible, unrecorded }: Replan,
	rollout: Rollout
): string {
	const when = (booking: PlannedBooking | null): string =>
		booking === null
			? ''
			: `${booking.start.replace('T', ' ')} ${nameOf(rollout.enrollment.stations, booking.station)}`;
	const rows = changes
		.slice(0, mostShown)
		.map(({ person, before, after, why, mustBeTold }) => [
			personName(rollout, person),
			changeWords[why.kind],
			when(before),
			after === null ? 'no room found' : when(after),
			mustBeTold ? 'tell again' : ''
		]);
	const columns = ['Person', 'Why', 'Before', 'Now', 'Told before'].map((heading) => ({ heading }));
	const names = (ids: readonly string[]): string =>
		listed(
			ids.map((id) => personName(rollout, id)),
			10
		);
	return [
		`${counted(kept, 'booking stays', 'bookings stay')}, ${counted(changes.length, 'change')}. To make room ${counted(moved, 'booking is', 'bookings are')} moved, ` +
			`${toldAnew} of people who were told already; price of the moves ${cost}.`,
		...(rows.length > 0 ? [textTable(columns, rows)] : []),
		...(changes.length > mostShown ? [`… and ${changes.length - mostShown} more; --json lists all`] : []),
		...(unbooked.length > 0 ? [`Not booked, since no room was found: ${names(unbooked)}.`] : []),
		...(impossible.length > 0 ? [`Of them, no start from then on suits at all: ${names(impossible)}.`] : []),
		...(unrecorded.length > 0
			? [`Booked before that moment, and nothing recorded of what became of it: ${names(unrecorded)}.`]
			: [])
	].join('\n\n');
}
