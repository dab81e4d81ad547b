import type { Instance } from './instance';
import type { Gap, ProofSpace } from './proof-space';
import { Ascent, type Priced } from './session-ascent';
import { fillingAt } from './session-filling';
import { type GapRoom, type Group, type SessionRoom, entriesOf, sessionRoom } from './session-room';
import { stretchAround } from './validity';

/** A proven bound, and what it says about single sessions. */
export interface SessionBound {
	/** No plan that books as many people has fewer sessions. */
	readonly fewest: number;
	/** The most that a session can be worth at the prices found: the less below 1, the less it belongs in a good plan. */
	worthOf(station: number, lane: number, run: number): number;
	/** By kind: what one is worth. */
	readonly prices: readonly number[];
}

/**
 * How few sessions could do, proved.
 *
 * The idea: give everybody a price. A session whose people may be worth at most 1 together, whoever they are, never pays for
 * more than 1; so there are at least as many sessions as everybody's prices add up to. Any prices give a true bound
 * (a session that could be worth more than 1 is charged the excess); good prices are found by raising the prices of people
 * whom the cheapest choice of sessions leaves out and lowering those whom it takes twice. What a session may hold is
 * reckoned by grid steps alone, parts of people allowed, so the bound holds for every plan. Cost of a round: people's kinds
 * times the sessions they could use.
 * @source A. M. Geoffrion, Lagrangean relaxation for integer programming (1974)
 */
export function boundSessions(space: ProofSpace, people: number, inUse: number, isOver: () => boolean): SessionBound {
	const already = standingSessions(space.instance);
	const nothing = space.instance.kinds.map(() => 0);
	if (isOver()) return { fewest: already, worthOf: () => 0, prices: nothing };
	const room = sessionRoom(space);
	const { prices: start, priced } = evenPrices(room, people, isOver);
	const found = new Ascent((prices) => valueOf(room, prices, people), start, priced);
	found.climb(Math.min(80, Math.ceil(mostEntries / (1 + entriesOf(room)))), inUse - already - nearly, isOver);
	const filling = fillingAt(room, found.prices);
	return {
		fewest: already + roundedUp(found.value),
		worthOf: worthBy(space, (gap) => filling.worthOf(gap)),
		prices: Array.from(room.groupOf, (group) => found.prices[group] ?? 0)
	};
}

/** Kinds times sessions that a bound may look at. */
const mostEntries = 2e7;

/** Beyond so much over the number before, a bound comes to a number. */
export const nearly = 1 - 1e-6;

/** The next whole number, but for what rounding may have added. */
export function roundedUp(value: number): number {
	return Math.ceil(value - 1e-6);
}

/** What sessions are worth, by place, where it is known by gap. */
function worthBy(space: ProofSpace, worthOf: (gap: number) => number): SessionBound['worthOf'] {
	const places = new Map<string, number>();
	space.gaps.forEach(({ station, lanes, run }: Gap, gap) => {
		for (const lane of lanes) places.set(`${station} ${lane} ${run}`, places.get(`${station} ${lane} ${run}`) ?? gap);
	});
	return (station, lane, run) => {
		const gap = places.get(`${station} ${lane} ${run}`);
		return gap === undefined ? 0 : worthOf(gap);
	};
}

/** The best of the prices that go by the step alone: so much that a session of some size, or the largest that one could use, is worth 1. */
function evenPrices(
	room: SessionRoom,
	people: number,
	isOver: () => boolean
): { readonly prices: readonly number[]; readonly priced: Priced } {
	const sizes = [...new Set(room.gaps.map(({ whole }) => whole))].filter((size) => size > 0).sort((a, b) => b - a);
	const wholeOf = new Map(
		room.groups.flatMap(({ parts }) =>
			parts.map((part) => [part, part.gaps.reduce((most, gap) => Math.max(most, (room.gaps[gap] as GapRoom).whole), 0)])
		)
	);
	// A few sizes are enough where there are many.
	const apart = Math.max(1, Math.floor(sizes.length / 12));
	const free = room.groups.map(() => 0);
	let best = { prices: free, priced: { value: 0, slope: room.groups.map(({ people: count }) => count) } as Priced };
	for (let at = 0; at < sizes.length && (at < 4 * apart || !isOver()); at += apart) {
		for (const isByWhole of [true, false]) {
			const prices = room.groups.map(({ parts }) => {
				const fitting = parts.map((part) => {
					const own = isByWhole ? (wholeOf.get(part) as number) : part.most;
					return Math.min(sizes[at] as number, own) / Math.max(part.steps, 1e-9);
				});
				return 1 / Math.max(...fitting, 1e-9);
			});
			const priced = valueOf(room, prices, people);
			if (priced.value > best.priced.value) best = { prices, priced };
		}
	}
	return best;
}

/** Sessions in which a booking stands: they are in use in any plan. */
export function standingSessions({ standing, lattices }: Instance): number {
	const sessions = new Set<string>();
	for (const { station, lane, from, to } of standing) {
		const stretch = stretchAround(lattices[station]?.ready.stretches ?? [], from, to);
		if (stretch) sessions.add(`${station} ${lane} ${stretch.place}`);
	}
	return sessions.size;
}

/** The bound that prices give, and how it would change with them. */
function valueOf(room: SessionRoom, prices: readonly number[], people: number): Priced {
	const filling = fillingAt(room, prices);
	const { value, slope } = wantedAt(room, prices, people);
	let sum = value;
	room.gaps.forEach(({ lanes, cost }, gap) => (sum += lanes * Math.min(0, cost - filling.worthOf(gap))));
	filling.forEach((group, gap, count) => {
		const { lanes, cost } = room.gaps[gap] as GapRoom;
		if (filling.worthOf(gap) > cost) slope[group] = (slope[group] as number) - count * lanes;
	});
	return { value: sum, slope };
}

/** What the people to be booked are worth, the cheapest of all: nobody says who is left out. */
export function wantedAt(
	{ groups }: SessionRoom,
	prices: readonly number[],
	people: number
): { readonly value: number; readonly slope: Float64Array } {
	const slope = new Float64Array(groups.length);
	let value = 0;
	let wanted = people;
	const byPrice = [...groups.keys()].sort((a, b) => (prices[a] as number) - (prices[b] as number));
	for (const group of byPrice) {
		const count = Math.min(wanted, (groups[group] as Group).people);
		value += count * (prices[group] as number);
		slope[group] = count;
		wanted -= count;
	}
	return { value, slope };
}
