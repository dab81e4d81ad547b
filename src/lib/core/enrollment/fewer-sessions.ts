import type { RandomGenerator } from 'pure-rand/types/RandomGenerator';
import type { Board, Lane } from './board';
import { ChainSearch, insertByPushing } from './chains';
import { Ejection } from './eject';
import { findGap } from './rooms';
import type { SessionBound } from './session-bound';

/**
 * Closing sessions: the people of the emptiest one are moved into others that are in use, with chains and pushing where there is
 * no free time; when all find room, the session is closed, else everything is as before. Invariant: nobody loses
 * a booking.
 */
export class SessionCloser {
	readonly #board: Board;
	/** Units in which a session is in use: the only ones to which people may move. */
	readonly #usable: Uint8Array;
	readonly #chains: ChainSearch;

	readonly #random: RandomGenerator;

	#onFewer: () => void = () => undefined;

	/** What each session is worth to a plan with few sessions, by unit. */
	readonly #worth: Float64Array;

	constructor(board: Board, bound: SessionBound, random: RandomGenerator) {
		this.#board = board;
		this.#worth = Float64Array.from(board.unitLane, (lane, unit) => {
			const { station, number } = board.lanes[lane] as Lane;
			return Math.round(bound.worthOf(station, number, board.unitRun[unit] as number) * 50) / 50;
		});
		this.#random = random;
		this.#usable = new Uint8Array(board.unitLane.length);
		this.#chains = new ChainSearch(board, this.#usable);
	}

	/**
	 * Closes what it can until `fewest` sessions are left or it is over: first simply, then by exchange for larger ones, then
	 * letting others go for so many rounds in turn as `patience` says. Tells each time that there is one less.
	 */
	closeAll(fewest: number, patience: readonly number[], isOver: () => boolean, onFewer: () => void): void {
		const board = this.#board;
		this.#onFewer = onFewer;
		const isDone = (): boolean => board.sessionsUsed <= fewest || isOver();
		const sizeOf = (unit: number): number => (board.unitTo[unit] as number) - (board.unitFrom[unit] as number);
		const worthOf = (unit: number): number => (this.#worth[unit] as number) * 1e6 + sizeOf(unit);
		this.#closeMany(0, isDone);
		for (let turn = 0, misses = 0; misses < 2 && !isDone(); turn++) {
			const before = board.sessionsUsed;
			if (this.#exchangeMany(turn % 2 === 0 ? sizeOf : worthOf, isDone)) this.#closeMany(0, isDone);
			misses = board.sessionsUsed < before ? 0 : misses + 1;
		}
		for (const rounds of patience) this.#closeMany(rounds, isDone);
	}

	#closeMany(rounds: number, isDone: () => boolean): void {
		for (let isBetter = true; isBetter && !isDone();) {
			isBetter = false;
			for (const unit of this.#emptiestFirst()) {
				if (isDone()) return;
				if (this.#close(unit, rounds, isDone)) isBetter = true;
			}
		}
	}

	/** Opens a session of more value in place of one of less, by size or by worth; true when one was exchanged. */
	#exchangeMany(valueOf: (unit: number) => number, isDone: () => boolean): boolean {
		const inUse = this.#emptiestFirst();
		const unused = [...this.#usable.keys()].filter((unit) => this.#usable[unit] === 0);
		unused.sort((a, b) => valueOf(b) - valueOf(a) || a - b);
		let isBetter = false;
		for (const opened of unused) {
			this.#usable[opened] = 1;
			let tries = 0;
			let isUsed = false;
			for (const unit of inUse) {
				if (isDone()) return isBetter;
				if (this.#usable[unit] === 0 || valueOf(unit) >= valueOf(opened) || tries++ > mostTries) continue;
				if (!this.#close(unit, 0, isDone, 1)) continue;
				isUsed = true;
				isBetter = true;
				break;
			}
			if (!isUsed) this.#usable[opened] = 0;
		}
		return isBetter;
	}

	#emptiestFirst(): number[] {
		const board = this.#board;
		const taken = new Map<number, number>();
		this.#usable.fill(0);
		for (let unit = 0; unit < board.unitLane.length; unit++) {
			const people = peopleIn(board, unit).length;
			const hasStanding = this.#hasStanding(unit);
			if (people > 0 || hasStanding) this.#usable[unit] = 1;
			if (people > 0 && !hasStanding)
				taken.set(
					unit,
					(board.unitTo[unit] as number) - (board.unitFrom[unit] as number) - (board.freeIn[unit] as number)
				);
		}
		const orderOf = (unit: number): number => (this.#worth[unit] as number) * 1e6 + (taken.get(unit) as number);
		return [...taken.keys()].sort((a, b) => orderOf(a) - orderOf(b) || a - b);
	}

	#hasStanding(unit: number): boolean {
		const { cells, unitFrom, unitTo } = this.#board;
		return cells.subarray(unitFrom[unit], unitTo[unit]).includes(-2);
	}

	/** Closes a unit's session; up to `more` others may be opened for it. */
	#close(unit: number, rounds: number, isOver: () => boolean, more = 0): boolean {
		const board = this.#board;
		const before = board.moment;
		const used = board.sessionsUsed;
		const people = peopleIn(board, unit);
		this.#usable[unit] = 0;
		if (people.length > 0 && this.#roomElsewhere(people)) {
			this.#chains.revive();
			for (const person of people) board.remove(person);
			if (this.#bookElsewhere(people, rounds, isOver) && board.sessionsUsed < used + more) {
				board.forget();
				if (board.sessionsUsed < used) this.#onFewer();
				return true;
			}
			board.undoTo(before);
		}
		this.#usable[unit] = 1;
		return false;
	}

	#bookElsewhere(people: readonly number[], rounds: number, isOver: () => boolean): boolean {
		if (rounds === 0) return people.every((person) => this.#insert(person));
		const rest = people.filter((person) => !this.#insert(person));
		const ejection = new Ejection(this.#board, this.#usable, this.#chains, this.#random);
		return rest.length === 0 || ejection.book(rest, rounds, 0, isOver).length === 0;
	}

	/** A quick look whether the cells that are free elsewhere would do. */
	#roomElsewhere(people: readonly number[]): boolean {
		const board = this.#board;
		const needed = people.reduce(
			(sum, person) => sum + (board.endOf[person] as number) - (board.cellOf[person] as number),
			0
		);
		let free = 0;
		for (let unit = 0; unit < board.unitLane.length && free < needed; unit++) {
			if (this.#usable[unit] === 1) free += board.freeIn[unit] as number;
		}
		return free >= needed;
	}

	#insert(person: number): boolean {
		const board = this.#board;
		const gap = findGap(board, board.kindOf(person), 0, this.#usable);
		if (gap) {
			board.place(person, gap.lane, gap.cell);
			return true;
		}
		return this.#chains.insert(person) || insertByPushing(board, person, this.#usable);
	}
}

/** Sessions in use that are tried for one to be opened. */
const mostTries = 8;

/** The people whose bookings begin in a unit, in the order of time. */
export function peopleIn(board: Board, unit: number): number[] {
	const people: number[] = [];
	const from = board.unitFrom[unit] as number;
	for (let cell = from; cell < (board.unitTo[unit] as number);) {
		const holder = board.cells[cell] as number;
		if (holder < 0) cell++;
		else {
			if ((board.cellOf[holder] as number) >= from) people.push(holder);
			cell = board.endOf[holder] as number;
		}
	}
	return people;
}
