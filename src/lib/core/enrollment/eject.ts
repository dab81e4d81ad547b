import type { RandomGenerator } from 'pure-rand/types/RandomGenerator';
import type { Board } from './board';
import type { ChainSearch } from './chains';
import { UnitView } from './pushing';
import { findGap, someUnit } from './rooms';

/**
 * Booking the last people by letting others go.
 *
 * The idea: a pool of people to be booked. One of them is booked if any gap, chain or push allows it; otherwise where this costs
 * the least, and who is thereby taken off joins the pool. The price of letting somebody go rises each time that they could not be
 * booked, so that the pool comes to hold people who are easy to place. Best states are remembered, and the board is led back to
 * the best at the end. Cost of a round: the bookings of the units looked at.
 * @source Y. Nagata and O. Bräysy, A powerful route minimization heuristic for the vehicle routing problem with time windows (2009)
 */
export class Ejection {
	readonly #board: Board;
	readonly #usable: Uint8Array;
	readonly #chains: ChainSearch;
	readonly #random: RandomGenerator;
	/** How often each person could not be booked, and one. */
	readonly #price: Float64Array;

	constructor(board: Board, usable: Uint8Array, chains: ChainSearch, random: RandomGenerator) {
		this.#board = board;
		this.#usable = usable;
		this.#chains = chains;
		this.#random = random;
		this.#price = new Float64Array(board.instance.people.length).fill(1);
	}

	/**
	 * Tries to book all of a pool; what remains of it in the best state found, on which the board then stands. Ends after so many
	 * rounds without a smaller pool, or once `enough` people are left in it.
	 */
	book(pool: readonly number[], rounds: number, enough: number, isOver: () => boolean): number[] {
		const board = this.#board;
		const waiting = [...pool];
		let best = [...pool];
		let bestMoment = board.moment;
		for (let round = 0; round < rounds && waiting.length > 0 && best.length > enough && !isOver(); round++) {
			const person = waiting.splice(this.#below(waiting.length), 1)[0] as number;
			if (!this.#insert(person)) {
				this.#price[person] = (this.#price[person] as number) + 1;
				const left = this.#ejectFor(person);
				if (left) {
					waiting.push(...left);
					this.#chains.revive();
				} else waiting.push(person);
			}
			if (waiting.length >= best.length) continue;
			best = [...waiting];
			bestMoment = board.moment;
			round = 0;
		}
		board.undoTo(bestMoment);
		return best;
	}

	#below(count: number): number {
		return (this.#random.next() >>> 0) % count;
	}

	#insert(person: number): boolean {
		const board = this.#board;
		const gap = findGap(board, board.kindOf(person), this.#below(64), this.#usable);
		if (gap) board.place(person, gap.lane, gap.cell);
		return gap !== undefined || this.#chains.insert(person, effortForChain) || this.#push(person);
	}

	#push(person: number): boolean {
		const board = this.#board;
		const kind = board.kindOf(person);
		let looked = 0;
		const least = board.leastCells(kind);
		return someUnit(board, kind, this.#below(64), (unit) => {
			if ((board.freeIn[unit] as number) < least || this.#usable[unit] === 0 || looked > mostUnits) return false;
			looked++;
			const view = new UnitView(board, unit);
			for (let at = view.findInsertion(kind); at >= 0; at = view.findInsertion(kind, at + 1)) {
				if (view.insert(person, at, at)) return true;
			}
			return false;
		});
	}

	/** Books a person where it costs the least; those who had to go, or undefined where nobody could make room. */
	#ejectFor(person: number): number[] | undefined {
		const options = this.#optionsFor(person);
		options.sort((a, b) => a.cost - b.cost);
		for (const { unit, from, to } of options.slice(0, 6)) {
			const view = new UnitView(this.#board, unit);
			const gone = view.people.slice(from, to);
			if (view.slotBetween(this.#board.kindOf(person), from, to) >= 0 && view.insert(person, from, to)) return gone;
		}
		return this.#board.kindOf(person).limit < 0 ? undefined : this.#ejectColleague(person);
	}

	#optionsFor(person: number): Option[] {
		const board = this.#board;
		const kind = board.kindOf(person);
		const options: Option[] = [];
		const units: number[] = [];
		someUnit(board, kind, 0, (unit) => {
			if (this.#usable[unit] === 1) units.push(unit);
			return false;
		});
		for (let looked = 0; looked < mostUnits && units.length > 0; looked++) {
			const at = this.#below(units.length);
			const unit = units[at] as number;
			units[at] = units[units.length - 1] as number;
			units.pop();
			const view = new UnitView(board, unit);
			for (let from = 0; from < view.people.length; from++) {
				let cost = 0;
				for (let to = from + 1; to <= Math.min(from + mostGone, view.people.length); to++) {
					const gone = view.people[to - 1] as number;
					if (gone < 0) break;
					// Of equal prices the one that frees most, and among those any.
					const length = (board.endOf[gone] as number) - (board.cellOf[gone] as number);
					cost += (this.#price[gone] as number) - 0.02 * length + this.#below(1000) * 1e-6;
					if (view.slotBetween(kind, from, to) < 0) continue;
					options.push({ unit, from, to, cost });
					break;
				}
			}
		}
		return options;
	}

	/** Lets one of the same department go whose absence stands in the way. */
	#ejectColleague(person: number): number[] | undefined {
		const board = this.#board;
		const { limit } = board.kindOf(person);
		const colleagues: number[] = [];
		for (let other = 0; other < board.instance.people.length; other++) {
			if ((board.cellOf[other] as number) >= 0 && board.kindOf(other).limit === limit) colleagues.push(other);
		}
		const byPrice = colleagues.map((other) => ({
			other,
			price: (this.#price[other] as number) + this.#below(1000) * 1e-3
		}));
		byPrice.sort((a, b) => a.price - b.price);
		for (const { other } of byPrice.slice(0, 12)) {
			const before = board.moment;
			board.remove(other);
			const gap = findGap(board, board.kindOf(person), this.#below(64), this.#usable);
			if (gap) {
				board.place(person, gap.lane, gap.cell);
				return [other];
			}
			if (this.#push(person)) return [other];
			board.undoTo(before);
		}
		return undefined;
	}
}

/** Effort for a chain: letting somebody go costs less than searching far. */
const effortForChain = 2_000;

/** Units looked at in a round, and people let go at once. */
const mostUnits = 60;
const mostGone = 3;

interface Option {
	readonly unit: number;
	/** The bookings from..to-1 of the unit would go. */
	readonly from: number;
	readonly to: number;
	readonly cost: number;
}
