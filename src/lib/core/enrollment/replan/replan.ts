import type { LocalDateTime } from '../../calendar/local-date-time';
import type { Booking, Rollout } from '../../document/schema';
import { byCodeUnits } from '../../kernel/compare';
import { Board } from '../board';
import { ChainSearch, insertByPushing } from '../chains';
import { type FixedBookings } from '../fixed';
import { instanceOf } from '../instance';
import { judgeBookings } from '../judge';
import { EnrollmentModel } from '../model';
import { bookingsOf } from '../plan';
import { findGap } from '../rooms';
import type { PlannedBooking } from '../validity';
import { type Disruption, type Remaining, remainingFrom } from './remaining';
import { Shelf } from './shelf';

/** What changes for a person. */
export interface BookingChange {
	readonly person: string;
	/** The booking that no longer holds; null for somebody who had none. */
	readonly before: PlannedBooking | null;
	/** The new one; null where no room was found. */
	readonly after: PlannedBooking | null;
	/** Why: something happened to the person's own booking, or it was moved to make room for somebody else. */
	readonly why: Disruption | { readonly kind: 'made-room' };
	/** True when the person was told of the booking before, and must be told again. */
	readonly mustBeTold: boolean;
}

/** A plan from a moment on, as near as possible to the one that people know. */
export interface Replan {
	/** Every booking from that moment on, those that stay included. */
	readonly bookings: readonly Booking[];
	readonly changes: readonly BookingChange[];
	/** Bookings that stay as they are. */
	readonly kept: number;
	/** Bookings of others that were moved to make room, and those of them whose people must be told anew. */
	readonly moved: number;
	readonly toldAnew: number;
	/** What the moves come to by the site's own price of one. */
	readonly cost: number;
	/** People who need a booking and got none. */
	readonly unbooked: readonly string[];
	/** People whose booking is over without a record of what became of it. */
	readonly unrecorded: readonly string[];
}

/**
 * Plans anew from a moment on with as few changes to bookings as it can. Bookings marked `fixed` never move. First everybody goes into
 * time that is free; who finds none makes others move along a chain, at first only people who were not told of their booking yet
 * (`toldOn`), and only then the others. What was moved without need goes back. No booking is moved for the sake of a better plan.
 */
export function replan(rollout: Rollout, from: LocalDateTime): Replan {
	const remaining = remainingFrom(rollout, from);
	const waiting = [...remaining.disruptions.keys()];
	const isTold = (booking: Booking): boolean => booking.toldOn !== null;
	let placed = placeIn(remaining, remaining.standing, waiting);
	if (placed.unbooked.length > 0) {
		const movable = remaining.standing.filter((booking) => !booking.fixed && !isTold(booking));
		placed = better(placed, placeWith(remaining, movable, waiting));
	}
	if (placed.unbooked.length > 0) {
		const movable = remaining.standing.filter((booking) => !booking.fixed);
		placed = better(placed, placeWith(remaining, movable, waiting));
	}
	return answerOf(rollout, remaining, placed);
}

interface Placed {
	/** New and old bookings, by person. */
	readonly byPerson: ReadonlyMap<string, PlannedBooking>;
	readonly unbooked: readonly string[];
}

/** Fewer unbooked first, then the one reached with less moving, which is the earlier. */
function better(before: Placed, after: Placed): Placed {
	return after.unbooked.length < before.unbooked.length ? after : before;
}

function placeWith(remaining: Remaining, movable: readonly Booking[], waiting: readonly string[]): Placed {
	const moves = new Set(movable);
	return placeIn(
		remaining,
		remaining.standing.filter((booking) => !moves.has(booking)),
		waiting,
		movable
	);
}

/** Places those who wait around bookings that stay; the movable ones may be moved for them. */
function placeIn(
	remaining: Remaining,
	stays: readonly Booking[],
	waiting: readonly string[],
	movable: readonly Booking[] = []
): Placed {
	const standing = [...stays, ...remaining.running];
	const enrollment = { ...remaining.rollout.enrollment, bookings: standing.map((one) => ({ ...one, fixed: true })) };
	const model = new EnrollmentModel({ ...remaining.rollout, enrollment });
	// Bookings that run at the moment lie in time that is gone; they hold their lane all the same.
	const fixed: FixedBookings = {
		valid: enrollment.bookings.slice(0, stays.length),
		broken: enrollment.bookings.slice(stays.length)
	};
	const board = new Board(instanceOf(model, fixed, 'strict'));
	const shelf = new Shelf(board);
	for (const booking of movable) shelf.put(booking);
	const wanted = new Set(waiting);
	const people = board.instance.people.map(({ id }) => id);
	const indexes = [...people.keys()].filter((index) => wanted.has(people[index] as string));
	bookAll(board, indexes, movable.length > 0);
	shelf.putBack();
	const found = new Map(bookingsOf(board).map((booking) => [booking.person, booking]));
	const byPerson = new Map<string, PlannedBooking>(stays.map((booking) => [booking.person, booking]));
	for (const [person, booking] of found) byPerson.set(person, booking);
	const judged = judgeBookings(model, [...byPerson.values()]);
	for (const { booking, problems } of judged) if (problems.length > 0) byPerson.delete(booking.person);
	return { byPerson, unbooked: waiting.filter((person) => !byPerson.has(person)) };
}

/** Those who are due first, and take longest, go first. */
function bookAll(board: Board, people: readonly number[], mayMove: boolean): void {
	const everywhere = new Uint8Array(board.unitLane.length).fill(1);
	const order = [...people].sort((a, b) => {
		const [one, other] = [board.kindOf(a), board.kindOf(b)];
		return one.rank - other.rank || other.minutes - one.minutes || a - b;
	});
	let waiting: number[] = [];
	for (const person of order) {
		const gap = findGap(board, board.kindOf(person), 0, everywhere);
		if (gap) board.place(person, gap.lane, gap.cell);
		else waiting.push(person);
	}
	if (!mayMove) return;
	const chains = new ChainSearch(board, everywhere);
	for (let before = Infinity; waiting.length > 0 && waiting.length < before;) {
		before = waiting.length;
		chains.revive();
		waiting = waiting.filter((person) => !chains.insert(person) && !insertByPushing(board, person, everywhere));
	}
}

function answerOf(rollout: Rollout, remaining: Remaining, { byPerson, unbooked }: Placed): Replan {
	const old = new Map(remaining.standing.map((booking) => [booking.person, booking]));
	const changes: BookingChange[] = [];
	const bookings: Booking[] = [];
	let kept = 0;
	for (const [person, booking] of byPerson) {
		const before = old.get(person);
		if (before && isSame(before, booking)) {
			bookings.push(before);
			kept++;
			continue;
		}
		bookings.push({ ...plain(booking), fixed: false, toldOn: null });
		const had = before ?? remaining.before.get(person);
		changes.push({
			person,
			before: had ? plain(had) : null,
			after: plain(booking),
			why: remaining.disruptions.get(person) ?? { kind: 'made-room' },
			mustBeTold: had !== undefined && had.toldOn !== null
		});
	}
	for (const person of unbooked) {
		const had = remaining.before.get(person);
		changes.push({
			person,
			before: had ? plain(had) : null,
			after: null,
			why: remaining.disruptions.get(person) ?? { kind: 'made-room' },
			mustBeTold: had !== undefined && had.toldOn !== null
		});
	}
	const moved = changes.filter(({ why }) => why.kind === 'made-room');
	return {
		bookings,
		changes: changes.sort((a, b) => byCodeUnits(a.person, b.person)),
		kept,
		moved: moved.length,
		toldAnew: moved.filter(({ mustBeTold }) => mustBeTold).length,
		cost: moved.length * rollout.enrollment.costs.movedBooking,
		unbooked: [...unbooked].sort(byCodeUnits),
		unrecorded: remaining.unrecorded
	};
}

function plain({ person, station, lane, start, minutes }: PlannedBooking): PlannedBooking {
	return { person, station, lane, start, minutes };
}

function isSame(a: PlannedBooking, b: PlannedBooking): boolean {
	return a.station === b.station && a.lane === b.lane && a.start === b.start && a.minutes === b.minutes;
}
