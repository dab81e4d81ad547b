import { type Board, type Lane, isAllowed } from '../board';
import type { Spot } from './shelf';

/** What a plan made anew asks of people who were booked: compared in this order, less is better. */
export interface Upset {
	readonly unbooked: number;
	/** People told of their appointment who must be told of another one. */
	readonly toldAnew: number;
	readonly moved: number;
}

export function compareUpset(a: Upset, b: Upset): number {
	return a.unbooked - b.unbooked || a.toldAnew - b.toldAnew || a.moved - b.moved;
}

/** A booking that may be moved, with whether its person was told of it. */
export interface Movable extends Spot {
	readonly isTold: boolean;
}

/** Somebody who is to be placed, and where they may go. */
interface Mover {
	readonly person: number;
	/** Another lane at the same time only: who was told need not be told again. */
	readonly only?: Spot;
}

/** How often it asks whether somebody fits before it gives up: a fraction of a second. */
const mostAsked = 1_500_000;

/**
 * Looks for a plan with less upset than the one found, by trying sets of bookings to move in the order of their upset: the first that
 * works is the least there is. Exhaustive where it comes to its end, as it does for a dozen people; beyond a number of steps it gives
 * up and nothing is known. The board holds all that may be moved, and none of those who wait; on success it holds the better plan.
 *
 * @returns true when a better plan was found
 */
export function findLessUpset(
	board: Board,
	movables: readonly Movable[],
	waiting: readonly number[],
	found: Upset,
	isOver: () => boolean = () => false
): boolean {
	return new Search(board, movables, waiting, found, isOver).run();
}

class Search {
	readonly #board: Board;
	readonly #told: readonly Movable[];
	readonly #untold: readonly Movable[];
	readonly #waiting: readonly number[];
	readonly #found: Upset;
	readonly #isOver: () => boolean;
	#left = mostAsked;

	constructor(
		board: Board,
		movables: readonly Movable[],
		waiting: readonly number[],
		found: Upset,
		isOver: () => boolean
	) {
		this.#board = board;
		this.#told = movables.filter(({ isTold }) => isTold);
		this.#untold = movables.filter(({ isTold }) => !isTold);
		this.#waiting = waiting;
		this.#found = found;
		this.#isOver = isOver;
	}

	run(): boolean {
		const [told, all] = [this.#told.length, this.#told.length + this.#untold.length];
		for (let unbooked = this.#hopeless(); unbooked <= this.#found.unbooked; unbooked++) {
			for (let toldAnew = 0; toldAnew <= told; toldAnew++) {
				for (let moved = toldAnew; moved <= all; moved++) {
					if (compareUpset({ unbooked, toldAnew, moved }, this.#found) >= 0) break;
					if (this.#isSpent) return false;
					if (this.#choose(toldAnew, moved - toldAnew, unbooked)) return true;
				}
			}
		}
		return false;
	}

	get #isSpent(): boolean {
		return this.#left <= 0 || this.#isOver();
	}

	/** Those who wait and can go nowhere, whoever is moved. */
	#hopeless(): number {
		return this.#waiting.filter((person) => this.#board.kindOf(person).windows.every((window) => !window)).length;
	}

	/** Tries every set of that many told people to move and that many others; a told one may also change the lane only. */
	#choose(toldAnew: number, others: number, unbooked: number): boolean {
		const board = this.#board;
		const start = board.moment;
		for (const moved of setsOf(this.#told, toldAnew)) {
			const isMoved = new Set(moved);
			const rest = [
				...this.#untold.map((spot): Mover => ({ person: spot.person })),
				...this.#told.filter((spot) => !isMoved.has(spot)).map((spot): Mover => ({ person: spot.person, only: spot }))
			];
			for (const more of setsOf(rest, others)) {
				if (this.#isSpent) return false;
				const movers = [...moved.map(({ person }): Mover => ({ person })), ...more];
				for (const { person } of movers) board.remove(person);
				for (const booked of setsOf(this.#waiting, this.#waiting.length - unbooked)) {
					if (this.#placeAll([...movers, ...booked.map((person): Mover => ({ person }))])) return true;
				}
				board.undoTo(start);
			}
		}
		return false;
	}

	/** Places everybody, whoever has the fewest places first; false, and the board as it was, where there is no way. */
	#placeAll(movers: readonly Mover[]): boolean {
		if (movers.length === 0) return true;
		const board = this.#board;
		let [least, places]: [Mover | undefined, readonly number[]] = [undefined, []];
		for (const mover of movers) {
			const own = this.#placesOf(mover);
			if (own.length === 0) return false;
			if (least && own.length >= places.length) continue;
			[least, places] = [mover, own];
		}
		const next = least as Mover;
		const others = movers.filter((mover) => mover !== next);
		for (const cell of places) {
			if (this.#isSpent) return false;
			const before = board.moment;
			board.place(next.person, board.unitLane[board.unitOfCell[cell] as number] as number, cell);
			if (this.#placeAll(others)) return true;
			board.undoTo(before);
		}
		return false;
	}

	/** The cells in which somebody fits now. */
	#placesOf({ person, only }: Mover): number[] {
		const board = this.#board;
		const kind = board.kindOf(person);
		const cells: number[] = [];
		board.lanes.forEach((lane, index) => {
			const window = kind.windows[lane.station];
			if (!window) return;
			if (only) {
				const home = board.lanes[only.lane] as Lane;
				const cell = lane.base + only.cell - home.base;
				if (home.station === lane.station && this.#fits(person, index, cell)) cells.push(cell);
				return;
			}
			for (const run of window.runs) {
				const unit = lane.units + run;
				const to = board.unitTo[unit] as number;
				for (let cell = board.unitFrom[unit] as number; cell < to; cell++) {
					if (isAllowed(window, run, cell - lane.base) && this.#fits(person, index, cell)) cells.push(cell);
				}
			}
		});
		return cells;
	}

	#fits(person: number, lane: number, cell: number): boolean {
		this.#left--;
		return this.#board.fits(this.#board.kindOf(person), lane, cell);
	}
}

/** Every set of `count` of the items, in the order of the items. */
function* setsOf<T>(items: readonly T[], count: number, from = 0): Generator<readonly T[], void> {
	if (count === 0) {
		yield [];
		return;
	}
	for (let place = from; place + count <= items.length; place++) {
		for (const rest of setsOf(items, count - 1, place + 1)) yield [items[place] as T, ...rest];
	}
}
