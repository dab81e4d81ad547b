import type { Instance } from './instance';

/**
 * What the away-limits say, for bounds: at every instant at which a booking may start, no more people of a department are away
 * than its limit less those who are away for a booking that stands. Instants are priced in blocks, those of about an hour alike,
 * since what binds does so for a while.
 */
export class AwayTerms {
	/** Instants at which limits are looked at, ascending. */
	readonly instants: Float64Array;
	/** Prices: limit after limit, and in each block after block. */
	readonly size: number;
	readonly #blockOf: Int32Array;
	readonly #blocks: number;
	/** How many more may be away, by limit and instant. */
	readonly #room: readonly Float64Array[];
	/** So many instants make one price: about as many as one booking takes. */
	readonly #unit: number;

	constructor(instance: Instance) {
		const { limits, standing, lattices, model } = instance;
		const instants = [...new Set(lattices.flatMap(({ at }) => [...at]))].sort((a, b) => a - b);
		this.instants = Float64Array.from(instants);
		const grid = model.rollout.enrollment.gridMinutes * 60;
		const perBlock = Math.max(1, Math.round(blockSeconds / grid));
		this.#blockOf = new Int32Array(instants.length);
		let [block, inBlock] = [-1, 0];
		instants.forEach((instant, at) => {
			const isApart = at === 0 || instant - (instants[at - 1] as number) > 2 * grid;
			if (isApart || inBlock === perBlock) [block, inBlock] = [block + 1, 0];
			inBlock++;
			this.#blockOf[at] = block;
		});
		this.#blocks = block + 1;
		this.#room = limits.map(({ maxAway }, limit) => {
			const away = standing.filter((one) => one.limit === limit);
			return Float64Array.from(instants, (instant) => {
				const count = away.filter(({ from, to, walk }) => from - walk <= instant && instant < to + walk).length;
				return Math.max(0, maxAway - count);
			});
		});
		this.size = limits.length * this.#blocks;
		this.#unit = Math.max(1, ((instance.durations[0] ?? 0) * 60) / grid);
	}

	/** The first instant that is not before a time, as a place. */
	placeOf(time: number): number {
		let [low, high] = [0, this.instants.length];
		while (low < high) {
			const middle = (low + high) >> 1;
			if ((this.instants[middle] as number) < time) low = middle + 1;
			else high = middle;
		}
		return low;
	}

	/** By limit: what it costs to be away at all instants before each place. */
	costsAt(prices: readonly number[], from: number): Float64Array[] {
		return this.#room.map((room, limit) => {
			const costs = new Float64Array(room.length + 1);
			for (let at = 0; at < room.length; at++) {
				const price = prices[from + limit * this.#blocks + (this.#blockOf[at] as number)] as number;
				costs[at + 1] = (costs[at] as number) + price / this.#unit;
			}
			return costs;
		});
	}

	/** What all the room under the limits costs, and how that changes with each price; `away`: people away, by limit and instant. */
	priced(prices: readonly number[], from: number, away: readonly Float64Array[], slope: Float64Array): number {
		let sum = 0;
		this.#room.forEach((room, limit) => {
			const own = away[limit] as Float64Array;
			for (let at = 0; at < room.length; at++) {
				const index = from + limit * this.#blocks + (this.#blockOf[at] as number);
				slope[index] = (slope[index] as number) + ((own[at] as number) - (room[at] as number)) / this.#unit;
				sum += ((prices[index] as number) * (room[at] as number)) / this.#unit;
			}
		});
		return sum;
	}
}

/** Instants so near to each other have one price. */
const blockSeconds = 3600;
