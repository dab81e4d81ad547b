import type { RandomGenerator } from 'pure-rand/types/RandomGenerator';
import { type Board, type Lane, blocked } from './board';
import { ChainSearch, insertByPushing } from './chains';
import { closeUp, moveEarlier, shorterFirst } from './earlier-starts';
import { Ejection } from './eject';
import { peopleIn } from './fewer-sessions';
import { moveNearer } from './less-walking';
import { findGap } from './rooms';

/**
 * Improving a plan by taking a part of it apart and putting it together otherwise, again and again.
 *
 * The idea: a few sessions are emptied, a few unused ones may be opened in their place, and their people are booked anew where they
 * fit, with chains, pushing and letting others go. A new state is kept when it reaches no less; that some states are only as good
 * lets the plan wander to where the next session can be closed. Invariant: whoever was booked stays booked. Our own; a large
 * neighborhood search.
 * @source P. Shaw, Using constraint programming and local search methods to solve vehicle routing problems (1998)
 */
export class Shaker {
	readonly #board: Board;
	readonly #random: RandomGenerator;
	readonly #usable: Uint8Array;
	readonly #chains: ChainSearch;
	readonly #hasStanding: Uint8Array;

	constructor(board: Board, random: RandomGenerator) {
		this.#board = board;
		this.#random = random;
		this.#usable = new Uint8Array(board.unitLane.length);
		this.#chains = new ChainSearch(board, this.#usable);
		this.#hasStanding = new Uint8Array(board.unitLane.length);
		for (let unit = 0; unit < board.unitLane.length; unit++) {
			if (board.cells.subarray(board.unitFrom[unit], board.unitTo[unit]).includes(blocked)) this.#hasStanding[unit] = 1;
		}
	}

	/** Tries once to do with fewer sessions, or with as many others; true when there are fewer now. */
	shakeSessions(rounds: number, isOver: () => boolean): boolean {
		const board = this.#board;
		const inUse = this.#unitsInUse();
		if (inUse.length < 2) return false;
		const used = board.sessionsUsed;
		const squares = this.#squares();
		const closed = this.#pick(inUse, 1 + this.#below(Math.min(3, inUse.length - 1)));
		const people = closed.flatMap((unit) => peopleIn(board, unit));
		const opened = this.#unusedFor(people, closed.length - this.#below(2), closed);
		for (const unit of closed) this.#usable[unit] = 0;
		for (const unit of opened) this.#usable[unit] = 1;
		const before = board.moment;
		const isKept =
			this.#rebook(people, rounds, isOver) &&
			(board.sessionsUsed < used ||
				(board.sessionsUsed === used && (this.#squares() >= squares || this.#below(4) === 0)));
		if (!isKept) board.undoTo(before);
		board.forget();
		return board.sessionsUsed < used;
	}

	/**
	 * Books the people of one or two sessions anew in the sessions that are in use, and lets each walk less and start earlier
	 * where that is possible. The caller compares.
	 */
	shakeOrder(isOver: () => boolean): boolean {
		const board = this.#board;
		const inUse = this.#unitsInUse();
		if (inUse.length === 0) return false;
		const used = board.sessionsUsed;
		const touched = this.#pick(inUse, 1 + this.#below(Math.min(3, inUse.length)));
		const all = touched.flatMap((unit) => peopleIn(board, unit));
		// Some of them are enough, and cheaper.
		const share = 1 + this.#below(3);
		const people = all.filter(() => this.#below(3) < share);
		const before = board.moment;
		if (!this.#rebook(people, 0, isOver) || board.sessionsUsed > used) {
			board.undoTo(before);
			return false;
		}
		for (const person of all) moveNearer(board, person);
		for (const unit of touched) {
			closeUp(board, unit);
			shorterFirst(board, unit);
		}
		for (const person of all) moveEarlier(board, person);
		return true;
	}

	#below(count: number): number {
		return (this.#random.next() >>> 0) % count;
	}

	#unitsInUse(): number[] {
		const board = this.#board;
		const inUse: number[] = [];
		for (let unit = 0; unit < board.unitLane.length; unit++) {
			const isTaken =
				(board.freeIn[unit] as number) < (board.unitTo[unit] as number) - (board.unitFrom[unit] as number);
			this.#usable[unit] = isTaken ? 1 : 0;
			if (isTaken && this.#hasStanding[unit] === 0) inUse.push(unit);
		}
		return inUse;
	}

	#takenIn(unit: number): number {
		const board = this.#board;
		return (board.unitTo[unit] as number) - (board.unitFrom[unit] as number) - (board.freeIn[unit] as number);
	}

	/** Grows as some sessions fill up and others empty. */
	#squares(): number {
		let sum = 0;
		for (let unit = 0; unit < this.#usable.length; unit++) sum += this.#takenIn(unit) ** 2;
		return sum;
	}

	/** Some of the units, the emptier ones more often. */
	#pick(units: readonly number[], count: number): number[] {
		const picked = new Set<number>();
		for (let tries = 0; picked.size < count && tries < 4 * count; tries++) {
			const [a, b] = [units[this.#below(units.length)] as number, units[this.#below(units.length)] as number];
			picked.add(this.#takenIn(a) <= this.#takenIn(b) ? a : b);
		}
		return [...picked];
	}

	/** Unused units in which some of the people could be booked. */
	#unusedFor(people: readonly number[], count: number, closed: readonly number[]): number[] {
		const board = this.#board;
		const found = new Set<number>();
		for (let tries = 0; people.length > 0 && found.size < count && tries < 12; tries++) {
			const kind = board.kindOf(people[this.#below(people.length)] as number);
			const stations = kind.windows.flatMap((window, station) => (window ? [station] : []));
			const station = stations[this.#below(Math.max(1, stations.length))];
			const window = station === undefined ? null : kind.windows[station];
			if (station === undefined || !window) continue;
			const run = window.runs[this.#below(window.runs.length)] as number;
			const [first, last] = [board.laneFirst[station] as number, board.laneFirst[station + 1] as number];
			const unit = (board.lanes[first + this.#below(last - first)] as Lane).units + run;
			if (this.#usable[unit] === 0 && !closed.includes(unit)) found.add(unit);
		}
		return [...found];
	}

	/** Takes people off and books them anew in units that may be used; false when somebody finds no room. */
	#rebook(people: readonly number[], rounds: number, isOver: () => boolean): boolean {
		const board = this.#board;
		const keys = new Map(people.map((person) => [person, this.#below(1000)]));
		for (const person of people) board.remove(person);
		const order = [...people].sort((a, b) => this.#orderOf(b, keys) - this.#orderOf(a, keys) || a - b);
		this.#chains.revive();
		const rest: number[] = [];
		for (const person of order) {
			if (this.#insert(person)) continue;
			rest.push(person);
			if (rest.length > mostLeft || rounds === 0) return false;
		}
		if (rest.length === 0) return true;
		return new Ejection(board, this.#usable, this.#chains, this.#random).book(rest, rounds, 0, isOver).length === 0;
	}

	/** Longer bookings first, then by chance. */
	#orderOf(person: number, keys: ReadonlyMap<number, number>): number {
		return this.#board.kindOf(person).minutes * 40 + (keys.get(person) ?? 0);
	}

	#insert(person: number): boolean {
		const board = this.#board;
		const gap = findGap(board, board.kindOf(person), this.#below(64), this.#usable);
		if (gap) board.place(person, gap.lane, gap.cell);
		return gap !== undefined || this.#chains.insert(person) || insertByPushing(board, person, this.#usable);
	}
}

/** So many without room are still tried for by letting others go. */
const mostLeft = 6;
