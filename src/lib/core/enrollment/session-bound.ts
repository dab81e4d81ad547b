import type { Instance } from './instance';
import type { ProofSpace } from './proof-space';
import { type GapRoom, type Group, type SessionRoom, sessionRoom } from './session-room';
import { stretchAround } from './validity';

/**
 * How few sessions could do, proved.
 *
 * The idea: give everybody a price. A session whose people may be worth at most 1 together, whoever they are, never pays for
 * more than 1; so there are at least as many sessions as everybody's prices add up to. Any prices give a true bound
 * (a session that could be worth more than 1 is charged the excess); good prices are found by raising the prices of people
 * whom the cheapest choice of sessions leaves out and lowering those whom it takes twice. What a session may hold is
 * reckoned by grid steps alone, parts of people allowed, so the bound holds for every plan. Cost of a round: people's kinds
 * times the sessions they could use.
 * @source A. M. Geoffrion, Lagrangean relaxation for integer programming (1974); F. Barahona and R. Anbil, The volume algorithm (2000)
 */
export function boundSessions(space: ProofSpace, people: number, inUse: number, isOver: () => boolean): SessionBound {
	const already = standingSessions(space.instance);
	if (isOver()) return { fewest: already, worthOf: () => 0 };
	const relaxed = sessionRoom(space);
	const target = inUse - already;
	let { prices, value: best, slope: mean } = evenPrices(relaxed, people, isOver);
	const entries = relaxed.groups.reduce((sum, { parts }) => parts.reduce((all, { gaps }) => all + gaps.length, sum), 1);
	const rounds = Math.min(80, Math.ceil(mostEntries / entries));
	let scale = 0.1;
	let misses = 0;
	for (let round = 0; round < rounds && roundedUp(best) < target && !isOver(); round++) {
		const length = mean.reduce((sum, one) => sum + one * one, 0);
		if (length < 1e-12) break;
		const step = (scale * (Math.min(target, best * 1.05 + 1) - best)) / length;
		const tried = prices.map((price, group) => Math.max(0, price + step * (mean[group] as number)));
		const { value, slope } = valueOf(relaxed, tried, people);
		const dot = slope.reduce((sum, one, group) => sum + one * (mean[group] as number), 0);
		mean = mean.map((one, group) => 0.9 * one + 0.1 * (slope[group] as number));

		if (value > best) {
			[best, prices] = [value, tried];
			// Still uphill at the end of the step: it may be longer.
			if (dot > 0) scale = Math.min(2, scale * 1.3);
			misses = 0;
		} else if (++misses >= 6) {
			scale *= 0.66;
			misses = 0;
		}
	}
	const filling = fillingAt(relaxed, prices);
	return {
		fewest: already + roundedUp(best),
		worthOf: (station, lane, run) => {
			const gap = space.gaps.findIndex((one) => one.station === station && one.run === run && one.lanes.includes(lane));
			return gap < 0 ? 0 : filling.worthOf(gap);
		}
	};
}

/** A proven bound, and what it says about single sessions. */
export interface SessionBound {
	/** No plan that books as many people has fewer sessions. */
	readonly fewest: number;
	/** The most that a session can be worth at the prices found: the less below 1, the less it belongs in a good plan. */
	worthOf(station: number, lane: number, run: number): number;
}

/** Kinds times sessions that a bound may look at. */
const mostEntries = 2e7;

/** The best of the prices that go by the step alone: so much that a session of some size, or the largest that one could use, is worth 1. */
function evenPrices(
	relaxed: SessionRoom,
	people: number,
	isOver: () => boolean
): { prices: number[]; value: number; slope: number[] } {
	const wholes = relaxed.groups.map(({ parts }) =>
		parts.reduce(
			(best, { gaps }) => gaps.reduce((most, gap) => Math.max(most, (relaxed.gaps[gap] as GapRoom).whole), best),
			0
		)
	);
	const sizes = [...new Set(relaxed.gaps.map(({ whole }) => whole))].filter((size) => size > 0).sort((a, b) => b - a);
	// A few sizes are enough where there are many.
	const apart = Math.max(1, Math.floor(sizes.length / 12));
	let best = { prices: relaxed.groups.map(() => 0), value: 0, slope: relaxed.groups.map(({ people: count }) => count) };
	for (let at = 0; at < sizes.length && (at < 4 * apart || !isOver()); at += apart) {
		for (const isByWhole of [true, false]) {
			const prices = relaxed.groups.map(({ steps, most }, group) => {
				const own = isByWhole ? (wholes[group] as number) : most;
				return steps / Math.max(Math.min(sizes[at] as number, own), 1e-9);
			});
			const { value, slope } = valueOf(relaxed, prices, people);
			if (value > best.value) best = { prices, value, slope };
		}
	}
	return best;
}

/** The next whole number, but for what rounding may have added. */
function roundedUp(value: number): number {
	return Math.ceil(value - 1e-6);
}

function standingSessions({ standing, lattices }: Instance): number {
	const sessions = new Set<string>();
	for (const { station, lane, from, to } of standing) {
		const stretch = stretchAround(lattices[station]?.ready.stretches ?? [], from, to);
		if (stretch) sessions.add(`${station} ${lane} ${stretch.place}`);
	}
	return sessions.size;
}

/** Each session filled with the most worth. */
function fillingAt({ groups, gaps }: SessionRoom, prices: readonly number[]): Filling {
	const filling = new Filling(gaps);
	// Dearest by the step first: where bookings may be cut up, this fills each session with the most worth.
	const ratio = groups.map(({ steps }, group) => (prices[group] as number) / Math.max(steps, 1e-9));
	const order = [...groups.keys()].sort((a, b) => (ratio[b] as number) - (ratio[a] as number));
	for (const index of order) {
		if ((prices[index] as number) <= 0) break;
		filling.add(index, groups[index] as Group, ratio[index] as number);
	}
	return filling;
}

/** The bound that prices give, and how it would change with them. */
function valueOf(
	{ groups, gaps }: SessionRoom,
	prices: readonly number[],
	people: number
): { value: number; slope: number[] } {
	const filling = fillingAt({ groups, gaps }, prices);
	const slope = groups.map(() => 0);
	let value = 0;
	gaps.forEach(({ lanes, cost }, gap) => (value += lanes * Math.min(0, cost - filling.worthOf(gap))));
	filling.forEach((group, gap, people) => {
		const { lanes, cost } = gaps[gap] as GapRoom;
		if (filling.worthOf(gap) > cost) slope[group] = (slope[group] as number) - people * lanes;
	});
	// Of the people to be booked, the cheapest: nobody says who is left out.
	let wanted = people;
	const byPrice = [...groups.keys()].sort((a, b) => (prices[a] as number) - (prices[b] as number));
	for (const group of byPrice) {
		const count = Math.min(wanted, (groups[group] as Group).people);
		value += count * (prices[group] as number);
		slope[group] = (slope[group] as number) + count;
		wanted -= count;
	}
	return { value, slope };
}

/**
 * Fills every session by itself, once by intervals and once by its fillable whole; what it can be worth is the less of both. Each
 * filling is best for its kind of room (the amounts that fit form a polymatroid), so the less of them is a true bound.
 */
class Filling {
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

	/** Fills in a group wherever it may go; `ratio` is its price for a step, no greater than those before. */
	add(index: number, group: Group, ratio: number): void {
		const steps = Math.max(group.steps, 1e-9);
		const amount = group.people * steps;
		const [parts, whole] = this.#worths;
		for (const part of group.parts) {
			for (let at = 0; at < part.gaps.length; at++) {
				const gap = part.gaps[at] as number;
				const byParts = this.#fill(gap, part.begins[at] as number, part.ends[at] as number, amount);
				const byWhole = Math.min(this.#wholes[gap] as number, amount);
				this.#wholes[gap] = (this.#wholes[gap] as number) - byWhole;
				if (byParts <= 0 && byWhole <= 0) continue;
				parts[gap] = (parts[gap] as number) + byParts * ratio;
				whole[gap] = (whole[gap] as number) + byWhole * ratio;
				this.#taken.push(index, gap, byParts / steps, byWhole / steps);
			}
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
