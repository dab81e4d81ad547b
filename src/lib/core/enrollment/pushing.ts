import { type Board, type Lane, blocked, free } from './board';
import type { Kind } from './instance';
import { earliestAllowed, latestAllowed } from './rooms';
import type { Window } from './windows';

/**
 * Making room in one unit by pushing its bookings earlier or later, their order kept.
 *
 * The idea: for each booking, reckon how early it could stand with everything before it as early as possible, and how late with
 * everything after it as late as possible. A newcomer fits between two neighbors exactly when it fits between the earliest end of
 * the one and the latest begin of the other (away-limits aside, which are asked when the moves are made). Cost: the bookings of
 * the unit. Our own; the same reckoning as insertion in vehicle routing with time windows.
 */
export class UnitView {
	readonly #board: Board;
	readonly #lane: Lane;
	readonly #laneIndex: number;
	readonly #run: number;
	/** In the order of time; -1 for bookings that cannot be moved. */
	readonly people: number[] = [];
	readonly #from: number[] = [];
	readonly #to: number[] = [];
	/** Earliest slot after the first i bookings, and latest slot by which those before booking i must have left. */
	readonly #leftEnd: number[] = [];
	readonly #rightStart: number[] = [];

	constructor(board: Board, unit: number) {
		this.#board = board;
		this.#laneIndex = board.unitLane[unit] as number;
		this.#lane = board.lanes[this.#laneIndex] as Lane;
		this.#run = board.unitRun[unit] as number;
		this.#read(unit);
		this.#reckon(unit);
		board.effort += 1 + this.people.length;
	}

	#read(unit: number): void {
		const { cells, cellOf, endOf } = this.#board;
		const { base } = this.#lane;
		const unitFrom = this.#board.unitFrom[unit] as number;
		const unitTo = this.#board.unitTo[unit] as number;
		for (let cell = unitFrom; cell < unitTo;) {
			const holder = cells[cell] as number;
			if (holder === free) cell++;
			else if (holder === blocked || (cellOf[holder] as number) < unitFrom) {
				const end = holder === blocked ? cell + 1 : (endOf[holder] as number);
				this.#push(-1, cell - base, end - base);
				cell = end;
			} else {
				this.#push(holder, cell - base, (endOf[holder] as number) - base);
				cell = endOf[holder] as number;
			}
		}
	}

	#push(person: number, from: number, to: number): void {
		this.people.push(person);
		this.#from.push(from);
		this.#to.push(to);
	}

	#reckon(unit: number): void {
		const board = this.#board;
		const { base, station } = this.#lane;
		const laneEnd = (board.instance.lattices[station] as { at: Float64Array }).at.length;
		let end = (board.unitFrom[unit] as number) - base;
		this.people.forEach((person, index) => {
			this.#leftEnd.push(end);
			if (person < 0) end = this.#to[index] as number;
			else {
				const kind = board.kindOf(person);
				const slot = earliestAllowed(kind.windows[station] as Window, this.#run, end);
				end = board.nextOf(kind, station)[slot] as number;
			}
		});
		this.#leftEnd.push(end);
		let limit = Math.max((board.unitTo[unit] as number) - base, this.#to.at(-1) ?? 0);
		const farthest = Math.min(laneEnd, limit + board.longest);
		while (limit < farthest && board.cells[base + limit] === free) limit++;
		this.#rightStart[this.people.length] = limit;
		for (let index = this.people.length - 1; index >= 0; index--) {
			const person = this.people[index] as number;
			if (person < 0) limit = this.#from[index] as number;
			else {
				const kind = board.kindOf(person);
				const window = kind.windows[station] as Window;
				limit = latestAllowed(window, this.#run, board.nextOf(kind, station), limit);
			}
			this.#rightStart[index] = limit;
		}
	}

	/**
	 * The earliest slot for somebody of a kind between the bookings before `from` and those from `to` on, the ones between taken
	 * away (none when both are the same); -1 when there is none.
	 */
	slotBetween(kind: Kind, from: number, to: number): number {
		const window = kind.windows[this.#lane.station];
		if (!window) return -1;
		const slot = earliestAllowed(window, this.#run, this.#leftEnd[from] as number);
		if (slot < 0) return -1;
		const next = this.#board.nextOf(kind, this.#lane.station)[slot] as number;
		return next <= (this.#rightStart[to] as number) ? slot : -1;
	}

	/** The place among the bookings before which a kind can be pushed in, from a place on; -1 for none. */
	findInsertion(kind: Kind, from = 0): number {
		for (let index = from; index <= this.people.length; index++)
			if (this.slotBetween(kind, index, index) >= 0) return index;
		return -1;
	}

	/**
	 * Pushes a person in where `slotBetween` found a slot, moving the others no more than needed and taking those between off
	 * the board. Nothing changes, and the result is false, where an away-limit forbids one of the moves.
	 */
	insert(person: number, from: number, to: number): boolean {
		const board = this.#board;
		const { station, base } = this.#lane;
		const kind = board.kindOf(person);
		const window = kind.windows[station] as Window;
		const next = board.nextOf(kind, station);
		const roomFrom = from > 0 ? (this.#to[from - 1] as number) : (this.#leftEnd[0] as number);
		// Without pushing the ones before, if that leaves room; else as late as those after can give way.
		let slot = earliestAllowed(window, this.#run, Math.max(roomFrom, this.#leftEnd[from] as number));
		if (slot < 0 || (next[slot] as number) > (this.#rightStart[to] as number)) {
			slot = latestAllowed(window, this.#run, next, this.#rightStart[to] as number);
		}
		const moves: [person: number, cell: number][] = [[person, base + slot]];
		let limit = slot;
		for (let before = from - 1; before >= 0 && (this.#to[before] as number) > limit; before--) {
			const moved = this.people[before] as number;
			const its = board.kindOf(moved);
			limit = latestAllowed(its.windows[station] as Window, this.#run, board.nextOf(its, station), limit);
			moves.push([moved, base + limit]);
		}
		let end = next[slot] as number;
		for (let later = to; later < this.people.length && (this.#from[later] as number) < end; later++) {
			const moved = this.people[later] as number;
			const its = board.kindOf(moved);
			const at = earliestAllowed(its.windows[station] as Window, this.#run, end);
			moves.push([moved, base + at]);
			end = board.nextOf(its, station)[at] as number;
		}
		return tryMoves(board, this.#laneIndex, moves, this.people.slice(from, to));
	}
}

/**
 * Moves people of one lane to other cells of it at once, and takes those `leaving` off the board; people not yet booked are
 * booked. Where the moves do not fit together everything is as before, and the result is false.
 */
export function tryMoves(
	board: Board,
	lane: number,
	moves: readonly (readonly [person: number, cell: number])[],
	leaving: readonly number[] = []
): boolean {
	const before = board.moment;
	for (const [person] of moves) if ((board.cellOf[person] as number) >= 0) board.remove(person);
	for (const person of leaving) board.remove(person);
	for (const [person, cell] of moves) {
		if (!board.fits(board.kindOf(person), lane, cell)) {
			board.undoTo(before);
			return false;
		}
		board.place(person, lane, cell);
	}
	return true;
}
