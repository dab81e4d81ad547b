import type { GapRoom, Group, GroupPart, SessionRoom } from './session-room';

/** Each session filled with the most worth, where each of a group is worth its price. */
export function fillingAt({ groups, gaps }: SessionRoom, prices: ArrayLike<number>): Filling {
	const filling = new Filling(gaps);
	const offers = groups.flatMap(({ parts }, group) =>
		parts.map((part) => ({ group, part, ratio: (prices[group] as number) / Math.max(part.steps, 1e-9) }))
	);
	// Dearest by the step first: where bookings may be cut up, this fills each session with the most worth.
	offers.sort((a, b) => b.ratio - a.ratio);
	for (const { group, part, ratio } of offers) {
		if (ratio <= 0) break;
		filling.add(group, (groups[group] as Group).people, part, ratio);
	}
	return filling;
}

/**
 * Fills every session by itself, once by intervals and once by its fillable whole; what it can be worth is the less of both. Each
 * filling is best for its kind of room (the amounts that fit form a polymatroid), so the less of them is a true bound.
 */
export class Filling {
	readonly #gaps: readonly GapRoom[];
	readonly #loads: readonly Float64Array[];
	readonly #wholes: Float64Array;
	/** Worth by gap: by intervals, and by the whole. */
	readonly #worths: readonly [Float64Array, Float64Array];
	/** Group, gap, and people by intervals and by the whole, one after the other. */
	readonly #taken: number[] = [];

	constructor(gaps: readonly GapRoom[]) {
		this.#gaps = gaps;
		this.#loads = gaps.map(({ capacity }) => new Float64Array(capacity.length));
		this.#wholes = Float64Array.from(gaps, ({ whole }) => whole);
		this.#worths = [new Float64Array(gaps.length), new Float64Array(gaps.length)];
	}

	/** Fills in a group wherever it may go at a station; `ratio` is its price for a step, no greater than those before. */
	add(group: number, people: number, part: GroupPart, ratio: number): void {
		const steps = Math.max(part.steps, 1e-9);
		const amount = people * steps;
		const [parts, whole] = this.#worths;
		for (let at = 0; at < part.gaps.length; at++) {
			const gap = part.gaps[at] as number;
			const byParts = this.#fill(gap, part.begins[at] as number, part.ends[at] as number, amount);
			const byWhole = Math.min(this.#wholes[gap] as number, amount);
			this.#wholes[gap] = (this.#wholes[gap] as number) - byWhole;
			if (byParts <= 0 && byWhole <= 0) continue;
			parts[gap] = (parts[gap] as number) + byParts * ratio;
			whole[gap] = (whole[gap] as number) + byWhole * ratio;
			this.#taken.push(group, gap, byParts / steps, byWhole / steps);
		}
	}

	#fill(gap: number, begin: number, end: number, most: number): number {
		const { capacity, ends } = this.#gaps[gap] as GapRoom;
		const load = this.#loads[gap] as Float64Array;
		let left = most;
		for (let b = 0; b <= begin; b++) {
			for (let e = end; e < ends; e++) {
				left = Math.min(left, (capacity[b * ends + e] as number) - (load[b * ends + e] as number));
			}
		}
		if (left <= 1e-12) return 0;
		for (let b = 0; b <= begin; b++) {
			for (let e = end; e < ends; e++) load[b * ends + e] = (load[b * ends + e] as number) + left;
		}
		return left;
	}

	worthOf(gap: number): number {
		return Math.min(this.#worths[0][gap] as number, this.#worths[1][gap] as number);
	}

	/** Visits who is in which gap, in the filling that is worth less. */
	forEach(visit: (group: number, gap: number, people: number) => void): void {
		const [parts, whole] = this.#worths;
		const taken = this.#taken;
		for (let at = 0; at < taken.length; at += 4) {
			const gap = taken[at + 1] as number;
			const people = (parts[gap] as number) <= (whole[gap] as number) ? taken[at + 2] : taken[at + 3];
			visit(taken[at] as number, gap, people as number);
		}
	}
}
