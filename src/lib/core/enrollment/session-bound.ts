import type { ProofSpace } from './proof-space';
import { type Gap, type Use } from './proof-space';
import type { Instance } from './instance';
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
 * @source A. M. Geoffrion, Lagrangean relaxation for integer programming (1974); the step rule is B. T. Polyak's (1969)
 */
export function fewestSessions(
	space: ProofSpace,
	people: number,
	inUse: number,
	isOver: () => boolean,
	rounds = 150
): number {
	const already = standingSessions(space.instance);
	const relaxed = relaxationOf(space);
	// Prices that no session exceeds: the share of the largest session that one takes.
	let prices = relaxed.groups.map(({ gaps, steps }) => {
		const ratios = gaps.map((gap, at) => (steps[at] as number) / Math.max(relaxed.capacities[gap] as number, 1e-9));
		return ratios.reduce((least, ratio) => Math.min(least, ratio), Infinity);
	});
	let best = 0;
	let scale = 1;
	let sinceBetter = 0;
	for (let round = 0; round < rounds; round++) {
		const { value, slope } = valueOf(relaxed, prices, people);
		if (value > best + 1e-9) {
			if (value > best + 0.01) sinceBetter = 0;
			best = value;
		} else if (++sinceBetter % 6 === 0) scale /= 2;
		const target = inUse - already;
		if (roundedUp(best) >= target || isOver() || scale < 1e-3) break;
		const length = slope.reduce((sum, one) => sum + one * one, 0);
		if (length < 1e-12) break;
		const step = (scale * (Math.max(target, best + 1) - value)) / length;
		prices = prices.map((price, group) => Math.max(0, price + step * (slope[group] as number)));
	}
	return already + roundedUp(best);
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

/** People who can use the same gaps and take as long there. */
interface Group {
	readonly people: number;
	readonly gaps: readonly number[];
	/** Grid steps that one takes, by gap; never below what any booking takes. */
	readonly steps: readonly number[];
}

interface Relaxation {
	readonly groups: readonly Group[];
	/** Steps that a gap holds on one lane. */
	readonly capacities: readonly number[];
	readonly lanes: readonly number[];
	/** What a gap costs when used: 0 where its session is in use anyway. */
	readonly costs: readonly number[];
}

function relaxationOf(space: ProofSpace): Relaxation {
	const { gaps, gridMinutes, instance } = space;
	const from = new Float64Array(gaps.length).fill(Infinity);
	const to = new Float64Array(gaps.length).fill(-Infinity);
	const lengths = gaps.map(() => new Set<number>());
	const groups = new Map<string, { people: number; gaps: number[]; steps: number[] }>();
	instance.kinds.forEach((kind, index) => {
		const uses = space.uses[index] as readonly Use[];
		if (uses.length === 0) return;
		const own: number[] = [];
		const steps: number[] = [];
		for (const { gap, lo, hi } of uses) {
			const place = gaps[gap] as Gap;
			from[gap] = Math.min(from[gap] as number, space.instantOf(place, lo));
			to[gap] = Math.max(to[gap] as number, space.instantOf(place, hi) + kind.minutes * 60);
			if (own.at(-1) === gap) continue;
			const taken = space.takenAt(kind, place.station, place.isEven) / gridMinutes;
			own.push(gap);
			steps.push(taken);
			lengths[gap]?.add(taken);
		}
		const key = `${own.join(' ')} ${steps.join(' ')}`;
		const group = groups.get(key);
		if (group) group.people += kind.members.length;
		else groups.set(key, { people: kind.members.length, gaps: own, steps });
	});
	const capacities = gaps.map((gap, index) => {
		if ((from[index] as number) > (to[index] as number)) return 0;
		const turnover = instance.lattices[gap.station]?.ready.station.turnoverMinutes ?? 0;
		const minutes = ((to[index] as number) - (from[index] as number)) / 60 + turnover;
		if (!gap.isEven) return minutes / gridMinutes;
		return fillable(Math.ceil(minutes / gridMinutes), lengths[index] as Set<number>);
	});
	return {
		groups: [...groups.values()],
		capacities,
		lanes: gaps.map(({ lanes }) => lanes.length),
		costs: gaps.map(({ isInUse }) => (isInUse ? 0 : 1))
	};
}

/** The most steps, up to a capacity, that bookings of some lengths can add up to. */
function fillable(capacity: number, lengths: ReadonlySet<number>): number {
	if (capacity > 4096 || lengths.has(0)) return capacity;
	const sums = new Uint8Array(capacity + 1);
	sums[0] = 1;
	let most = 0;
	for (let sum = 1; sum <= capacity; sum++) {
		for (const length of lengths) {
			if (length > sum || sums[sum - length] === 0) continue;
			sums[sum] = 1;
			most = sum;
			break;
		}
	}
	return most;
}

/** The bound that prices give, and how it would change with them. */
function valueOf(
	{ groups, capacities, lanes, costs }: Relaxation,
	prices: readonly number[],
	people: number
): { value: number; slope: number[] } {
	const worth = new Float64Array(capacities.length);
	const left = Float64Array.from(capacities);
	const slope = groups.map(() => 0);
	const taken: { group: number; gap: number; amount: number }[] = [];
	// Dearest first: price for a step; a group's steps differ by gap only where turnovers do, and then the least decides.
	const order = [...groups.keys()];
	const ratio = groups.map(({ steps }, group) => (prices[group] as number) / Math.max(Math.min(...steps), 1e-9));
	order.sort((a, b) => (ratio[b] as number) - (ratio[a] as number));
	for (const group of order) {
		const price = prices[group] as number;
		if (price <= 0) break;
		const { gaps, steps, people: count } = groups[group] as Group;
		const least = Math.max(Math.min(...steps), 1e-9);
		for (const gap of gaps) {
			const room = left[gap] as number;
			if (room <= 0) continue;
			const amount = Math.min(count, room / least);
			left[gap] = room - amount * least;
			worth[gap] = (worth[gap] as number) + amount * price;
			taken.push({ group, gap, amount });
		}
	}
	let value = 0;
	for (let gap = 0; gap < capacities.length; gap++) {
		value += (lanes[gap] as number) * Math.min(0, (costs[gap] as number) - (worth[gap] as number));
	}
	for (const { group, gap, amount } of taken) {
		if ((worth[gap] as number) <= (costs[gap] as number)) continue;
		slope[group] = (slope[group] as number) - amount * (lanes[gap] as number);
	}
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
