import type { RandomGenerator } from 'pure-rand/types/RandomGenerator';
import type { Board } from './board';
import { ChainSearch, insertByPushing } from './chains';
import { Ejection } from './eject';
import { findGap } from './rooms';

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

	constructor(board: Board, random: RandomGenerator) {
		this.#board = board;
		this.#random = random;
		this.#usable = new Uint8Array(board.unitLane.length);
		this.#chains = new ChainSearch(board, this.#usable);
	}

	/** Closes what it can until `fewest` sessions are left or it is over: first simply, then letting others go for a while. */
	closeAll(fewest: number, isOver: () => boolean): void {
		const board = this.#board;
		for (const rounds of [0, 60, 300]) {
			for (let isBetter = true; isBetter && board.sessionsUsed > fewest && !isOver();) {
				isBetter = false;
				for (const unit of this.#emptiestFirst()) {
					if (board.sessionsUsed <= fewest || isOver()) return;
					if (this.#close(unit, rounds, isOver)) isBetter = true;
				}
			}
		}
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
		return [...taken.keys()].sort((a, b) => (taken.get(a) as number) - (taken.get(b) as number) || a - b);
	}

	#hasStanding(unit: number): boolean {
		const { cells, unitFrom, unitTo } = this.#board;
		return cells.subarray(unitFrom[unit], unitTo[unit]).includes(-2);
	}

	#close(unit: number, rounds: number, isOver: () => boolean): boolean {
		const board = this.#board;
		const before = board.moment;
		const used = board.sessionsUsed;
		const people = peopleIn(board, unit);
		this.#usable[unit] = 0;
		if (people.length > 0 && this.#roomElsewhere(people)) {
			this.#chains.revive();
			for (const person of people) board.remove(person);
			if (this.#bookElsewhere(people, rounds, isOver) && board.sessionsUsed < used) {
				board.forget();
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
