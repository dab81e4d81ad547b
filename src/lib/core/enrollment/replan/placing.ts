import type { Booking } from '../../document/schema';
import type { Work } from '../../kernel/work';
import { Board } from '../board';
import { ChainSearch, insertByPushing } from '../chains';
import type { FixedBookings } from '../fixed';
import { instanceOf } from '../instance';
import { judgeBookings } from '../judge';
import { EnrollmentModel } from '../model';
import { bookingsOf } from '../board-bookings';
import { findGap } from '../rooms';
import { isSameAppointment } from '../told';
import type { PlannedBooking } from '../validity';
import { type Movable, type Upset, compareUpset, findLessUpset } from './fewest-moves';
import type { Remaining } from './remaining';
import { Shelf, spotOf } from './shelf';

/** Who stands where after planning anew. */
export interface Placed {
	/** New and old bookings, by person. */
	readonly byPerson: ReadonlyMap<string, PlannedBooking>;
	readonly unbooked: readonly string[];
}

/** Finds places for those who need one, moving as few others as it can; `work` is told how far it is, and may stop it. */
export function placeAnew(remaining: Remaining, work: Work): Placed {
	const waiting = [...remaining.disruptions.keys()];
	const step = (place: number, note: string) => work.report(place, 4, note);
	const unlocked = remaining.standing.filter(({ fixed }) => !fixed);
	step(0, 'Free time');
	let placed = placeIn(remaining, [], waiting, work);
	const isOver = () => placed.unbooked.length === 0 || work.isCancelled();
	if (isOver()) return placed;
	step(1, `${placed.unbooked.length} left; moving who was not told yet`);
	const untold = unlocked.filter(({ toldOn }) => toldOn === null);
	placed = better(placed, placeIn(remaining, untold, waiting, work));
	if (!isOver()) {
		step(2, `${placed.unbooked.length} left; moving who was told`);
		placed = better(placed, placeIn(remaining, unlocked, waiting, work));
	}
	step(3, 'Looking for fewer moves');
	return work.isCancelled() ? placed : withLessUpset(remaining, unlocked, waiting, placed, work);
}

/** Fewer unbooked first, then the one reached with less moving, which is the earlier. */
function better(before: Placed, after: Placed): Placed {
	return after.unbooked.length < before.unbooked.length ? after : before;
}

interface Table {
	readonly model: EnrollmentModel;
	readonly board: Board;
	readonly shelf: Shelf;
	/** Bookings that do not move. */
	readonly stays: readonly Booking[];
	readonly movables: readonly Movable[];
	/** Those who wait and may be booked at all, as places among the people of the board. */
	readonly waiting: readonly number[];
}

/** A board on which some bookings may be moved and the others stand. */
function layTable(remaining: Remaining, movable: readonly Booking[], waiting: readonly string[]): Table {
	const moves = new Set(movable);
	const stays = remaining.standing.filter((booking) => !moves.has(booking));
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
	const movables = movable.flatMap((booking): Movable[] => {
		const spot = shelf.put(booking);
		return spot ? [{ ...spot, isTold: booking.toldOn !== null }] : [];
	});
	const wanted = new Set(waiting);
	const places = board.instance.people.flatMap(({ id }, place) => (wanted.has(id) ? [place] : []));
	return { model, board, shelf, stays, movables, waiting: places };
}

function readOff({ model, board, stays }: Table, waiting: readonly string[]): Placed {
	const byPerson = new Map<string, PlannedBooking>(stays.map((booking) => [booking.person, booking]));
	for (const booking of bookingsOf(board)) byPerson.set(booking.person, booking);
	const judged = judgeBookings(model, [...byPerson.values()]);
	for (const { booking, problems } of judged) if (problems.length > 0) byPerson.delete(booking.person);
	return { byPerson, unbooked: waiting.filter((person) => !byPerson.has(person)) };
}

/** Places those who wait around bookings that stay; the movable ones may be moved for them. */
function placeIn(remaining: Remaining, movable: readonly Booking[], waiting: readonly string[], work: Work): Placed {
	const table = layTable(remaining, movable, waiting);
	keepAppointments(table, remaining);
	bookAll(table.board, table.waiting, work);
	table.shelf.putBack();
	return readOff(table, waiting);
}

/** Whose lane is lost, and who was told of the appointment, keeps it in another lane where one is free: nobody need be told. */
function keepAppointments({ board, waiting }: Table, { before, disruptions }: Remaining): void {
	for (const person of waiting) {
		const { id } = board.instance.people[person] as { readonly id: string };
		const had = before.get(id);
		if (!had?.toldOn || disruptions.get(id)?.kind !== 'no-longer-valid') continue;
		for (const { number } of board.lanes) {
			const spot = spotOf(board, { ...had, lane: number });
			if (!spot || !board.fits(board.kindOf(person), spot.lane, spot.cell)) continue;
			board.place(person, spot.lane, spot.cell);
			break;
		}
	}
}

/** Those who are due first, and take longest, go first; who finds no free time makes others move. */
function bookAll(board: Board, people: readonly number[], work: Work): void {
	const everywhere = new Uint8Array(board.unitLane.length).fill(1);
	const order = people
		.filter((person) => board.cellOf[person] === -1)
		.sort((a, b) => {
			const [one, other] = [board.kindOf(a), board.kindOf(b)];
			return one.rank - other.rank || other.minutes - one.minutes || a - b;
		});
	let waiting: number[] = [];
	for (const person of order) {
		const gap = findGap(board, board.kindOf(person), 0, everywhere);
		if (gap) board.place(person, gap.lane, gap.cell);
		else waiting.push(person);
	}
	const chains = new ChainSearch(board, everywhere);
	for (let before = Infinity; waiting.length > 0 && waiting.length < before;) {
		before = waiting.length;
		chains.revive();
		waiting = waiting.filter(
			(person) => work.isCancelled() || (!chains.insert(person) && !insertByPushing(board, person, everywhere))
		);
	}
}

/** The plan with the least upset, where that can be found out, else the one found. */
function withLessUpset(
	remaining: Remaining,
	movable: readonly Booking[],
	waiting: readonly string[],
	placed: Placed,
	work: Work
): Placed {
	const found = upsetOf(remaining, placed);
	const table = layTable(remaining, movable, waiting);
	// Who can be booked nowhere at all is no part of the puzzle, and stays unbooked.
	const impossible = waiting.length - table.waiting.length;
	const known = { ...found, unbooked: found.unbooked - impossible };
	if (!findLessUpset(table.board, table.movables, table.waiting, known, () => work.isCancelled())) return placed;
	const after = readOff(table, waiting);
	return compareUpset(upsetOf(remaining, after), found) < 0 ? after : placed;
}

function upsetOf({ standing }: Remaining, { byPerson, unbooked }: Placed): Upset {
	let [toldAnew, moved] = [0, 0];
	for (const before of standing) {
		const after = byPerson.get(before.person);
		if (after && isSameAppointment(before, after) && before.lane === after.lane) continue;
		moved++;
		if (before.toldOn !== null && !(after && isSameAppointment(before, after))) toldAnew++;
	}
	return { unbooked: unbooked.length, toldAnew, moved };
}
