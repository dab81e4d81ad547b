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

	/** The earliest slot for somebody of a kind before booking `index`, or in place of it with `replaces`; -1 for none. */
	slotBefore(kind: Kind, index: number, replaces = false): number {
		const window = kind.windows[this.#lane.station];
		if (!window) return -1;
		const slot = earliestAllowed(window, this.#run, this.#leftEnd[index] as number);
		if (slot < 0) return -1;
		const next = this.#board.nextOf(kind, this.#lane.station)[slot] as number;
		return next <= (this.#rightStart[replaces ? index + 1 : index] as number) ? slot : -1;
	}

	/** The place among the bookings before which a kind can be pushed in; -1 for none. */
	findInsertion(kind: Kind, from = 0): number {
		for (let index = from; index <= this.people.length; index++) if (this.slotBefore(kind, index) >= 0) return index;
		return -1;
	}

	/**
	 * Pushes a person in before booking `index` (or in place of it), moving the others no more than needed. Nothing
	 * changes, and the result is false, where an away-limit forbids one of the moves. A replaced person is taken off the board.
	 */
	insert(person: number, index: number, replaces = false): boolean {
		const board = this.#board;
		const { station, base } = this.#lane;
		const kind = board.kindOf(person);
		const window = kind.windows[station] as Window;
		const next = board.nextOf(kind, station);
		const after = replaces ? index + 1 : index;
		const roomFrom = index > 0 ? (this.#to[index - 1] as number) : (this.#leftEnd[0] as number);
		// Without pushing the ones before, if that leaves room; else as late as those after can give way.
		let slot = earliestAllowed(window, this.#run, Math.max(roomFrom, this.#leftEnd[index] as number));
		if (slot < 0 || (next[slot] as number) > (this.#rightStart[after] as number)) {
			slot = latestAllowed(window, this.#run, next, this.#rightStart[after] as number);
		}
		const moves: [person: number, slot: number][] = [[person, slot]];
		let limit = slot;
		for (let before = index - 1; before >= 0 && (this.#to[before] as number) > limit; before--) {
			const moved = this.people[before] as number;
			const its = board.kindOf(moved);
			limit = latestAllowed(its.windows[station] as Window, this.#run, board.nextOf(its, station), limit);
			moves.push([moved, limit]);
		}
		let end = next[slot] as number;
		for (let later = after; later < this.people.length && (this.#from[later] as number) < end; later++) {
			const moved = this.people[later] as number;
			const its = board.kindOf(moved);
			const to = earliestAllowed(its.windows[station] as Window, this.#run, end);
			moves.push([moved, to]);
			end = board.nextOf(its, station)[to] as number;
		}
		const replaced = replaces ? (this.people[index] as number) : -1;
		return tryMoves(
			board,
			this.#laneIndex,
			moves.map(([who, to]) => [who, base + to] as const),
			replaced
		);
	}
}

/**
 * Moves people of one lane to other cells of it at once, and takes `leaving` (-1: nobody) off the board; people not yet booked are
 * booked. Where the moves do not fit together everything is as before, and the result is false.
 */
export function tryMoves(
	board: Board,
	lane: number,
	moves: readonly (readonly [person: number, cell: number])[],
	leaving = -1
): boolean {
	const before: [person: number, cell: number][] = [];
	for (const [person] of moves) {
		if ((board.cellOf[person] as number) < 0) continue;
		before.push([person, board.cellOf[person] as number]);
		board.remove(person);
	}
	if (leaving >= 0) {
		before.push([leaving, board.cellOf[leaving] as number]);
		board.remove(leaving);
	}
	let placed = 0;
	for (const [person, cell] of moves) {
		if (!board.fits(board.kindOf(person), lane, cell)) break;
		board.place(person, lane, cell);
		placed++;
	}
	if (placed === moves.length) return true;
	for (let index = 0; index < placed; index++) board.remove((moves[index] as readonly [number, number])[0]);
	for (const [person, cell] of before) board.place(person, lane, cell);
	return false;
}
