import type { Board, Lane } from './board';
import { blocked, free } from './board';
import type { Instance, Kind } from './instance';
import type { Window } from './windows';

/**
 * The best way to book any set of a few people in one piece of one lane, by itself.
 *
 * A *bin* is a run of a lane, or runs so close that a turnover reaches from one into the next; lanes on which the same stands have
 * the same bins. The best order of a set is found from those of its subsets: whoever comes last starts as early as then
 * possible. Kept is, for each set, every pair of cost and end that no other beats in both. A cost is one number that holds sessions,
 * minutes walked and the sum of starts, in this order. Cost: sets that fit in the bin, times people.
 * @source M. Held and R. M. Karp, A dynamic programming approach to sequencing problems (1962)
 */
export interface Bin {
	readonly station: number;
	/** Places in `board.lanes` of the lanes that have this bin; any of them will do. */
	readonly lanes: readonly number[];
	readonly runs: readonly number[];
	/** First slot, and the one after the last. */
	readonly from: number;
	readonly to: number;
	/** Sessions after the lane's first, of which further ones may be opened: those that hold a booking that stands are in use. */
	readonly inUse: readonly boolean[];
	readonly firstSession: number;
}

/** How sessions, walks and starts go into one number. */
export interface CostScale {
	readonly session: number;
	readonly walkMinute: number;
	/** Instant from which starts are counted in minutes. */
	readonly from: number;
}

/** The scale for some people; undefined where the numbers would not fit, or starts are no whole minutes. */
export function costScale(instance: Instance, people: number): CostScale | undefined {
	let from = Infinity;
	let to = -Infinity;
	for (const { at } of instance.lattices) {
		for (const slot of at) [from, to] = [Math.min(from, slot), Math.max(to, slot)];
	}
	const walks = instance.kinds.flatMap((kind) => kind.walks.filter((_, station) => kind.windows[station]));
	const isUneven = instance.lattices.some(({ at }) => at.some((slot) => (slot - from) % 60 !== 0));
	if (isUneven || walks.some((walk) => walk % 60 !== 0)) return undefined;
	if (from > to) return { session: 1, walkMinute: 1, from: 0 };
	const walkMinute = people * ((to - from) / 60) + 1;
	const farthest = walks.reduce((most, walk) => Math.max(most, walk), 0) / 60;
	const session = walkMinute * (people * farthest + 1);
	return session * (people + 1) < Number.MAX_SAFE_INTEGER ? { session, walkMinute, from } : undefined;
}

/** The bins of a board that some people could use, in the order of time. */
export function binsOf(board: Board, people: readonly number[]): Bin[] {
	const { instance } = board;
	const bins = new Map<string, Bin & { lanes: number[] }>();
	const kinds = [...new Set(people.map((person) => board.kindOf(person)))];
	for (const [index, lane] of board.lanes.entries()) {
		const lattice = instance.lattices[lane.station] as Instance['lattices'][number];
		const turnover = lattice.ready.station.turnoverMinutes * 60;
		const hasStanding = board.cells.subarray(lane.base, lane.base + lattice.at.length).includes(blocked);
		let runs: number[] = [];
		lattice.runs.forEach((run, number) => {
			runs.push(number);
			const next = lattice.runs[number + 1];
			if (next && next.from < run.to + turnover) return;
			const own = runs;
			runs = [];
			if (!kinds.some((kind) => own.some((one) => isOpenTo(kind, lane.station, one)))) return;
			const bin = binOf(board, index, own);
			const key = `${lane.station} ${own[0]} ${hasStanding ? contentOf(board, lane, bin) : ''}`;
			const same = bins.get(key);
			if (same) same.lanes.push(index);
			else bins.set(key, bin);
		});
	}
	const startOf = ({ station, from }: Bin): number => instance.lattices[station]?.at[from] ?? 0;
	return [...bins.values()].sort((a, b) => startOf(a) - startOf(b) || a.station - b.station);
}

function binOf(board: Board, index: number, runs: readonly number[]): Bin & { lanes: number[] } {
	const lane = board.lanes[index] as Lane;
	const lattice = board.instance.lattices[lane.station] as Instance['lattices'][number];
	const places = runs.flatMap((run) =>
		(lattice.runs[run]?.stretches ?? []).map((one) => lattice.ready.stretches.indexOf(one))
	);
	const firstSession = places.reduce((least, place) => Math.min(least, place), Infinity);
	return {
		station: lane.station,
		lanes: [index],
		runs,
		from: lattice.runFirst[runs[0] as number] as number,
		to: lattice.runFirst[(runs.at(-1) as number) + 1] as number,
		inUse: places.map((_, at) => (board.bookedIn[lane.sessions + firstSession + at] as number) > 0),
		firstSession
	};
}

/** What stands in a bin of a lane, and just behind it. */
function contentOf(board: Board, { base }: Lane, { from, to, inUse }: Bin): string {
	const taken: number[] = [];
	for (let slot = from; slot <= Math.min(to + board.longest, board.cells.length - base - 1); slot++) {
		if (board.cells[base + slot] !== free) taken.push(slot);
	}
	return `${taken.join()} ${inUse.join()}`;
}

function isOpenTo(kind: Kind, station: number, run: number): boolean {
	const window = kind.windows[station];
	return window !== null && window !== undefined && window.first[run] !== window.first[run + 1];
}

/** The slots of one session of a bin in which somebody may start, ascending. */
export interface Track {
	/** Place of the session in the bin. */
	readonly session: number;
	readonly slots: Int32Array;
	/** By slot: the slot at which the lane is free again, and the cost, a new session left out. */
	readonly ends: Int32Array;
	readonly costs: Float64Array;
}

/** Where somebody of a kind may start in a bin beside bookings that stand, session by session. */
export function tracksOf(board: Board, bin: Bin, kind: Kind, scale: CostScale): Track[] {
	const lane = board.lanes[bin.lanes[0] as number] as Lane;
	const { station, base } = lane;
	const window = kind.windows[station] as Window | null;
	if (!window) return [];
	const next = board.nextOf(kind, station);
	const { at: instants } = board.instance.lattices[station] as Instance['lattices'][number];
	const walk = ((kind.walks[station] as number) / 60) * scale.walkMinute;
	const bySession = new Map<number, number[]>();
	for (const run of bin.runs) {
		for (let at = window.first[run] as number; at < (window.first[run + 1] as number); at++) {
			for (let slot = window.lo[at] as number; slot <= (window.hi[at] as number); slot++) {
				let cell = base + slot;
				const end = next[slot] as number;
				while (cell < base + end && board.cells[cell] === free) cell++;
				if (cell < base + end || !board.tally.hasRoom(kind, station, slot)) continue;
				const session = board.sessionAt(kind, lane, base + slot) - lane.sessions - bin.firstSession;
				const slots = bySession.get(session);
				if (slots) slots.push(slot);
				else bySession.set(session, [slot]);
			}
		}
	}
	return [...bySession].map(([session, slots]) => ({
		session,
		slots: Int32Array.from(slots),
		ends: Int32Array.from(slots, (slot) => next[slot] as number),
		costs: Float64Array.from(slots, (slot) => walk + ((instants[slot] as number) - scale.from) / 60)
	}));
}

/** Some of a track. */
export function trackWhere(track: Track, isKept: (slot: number) => boolean): Track {
	const kept = [...track.slots.keys()].filter((at) => isKept(track.slots[at] as number));
	if (kept.length === track.slots.length) return track;
	return {
		session: track.session,
		slots: Int32Array.from(kept, (at) => track.slots[at] as number),
		ends: Int32Array.from(kept, (at) => track.ends[at] as number),
		costs: Float64Array.from(kept, (at) => track.costs[at] as number)
	};
}

/** As many sessions of one run as there are bits for. */
const sessionBits = 30;

/** True when stretches of a bin overlap, and there are more of them than can be told apart. */
export function hasTooManySessions(board: Board, bin: Bin): boolean {
	return bin.inUse.length > sessionBits && !isPlain(bin, board.instance);
}

/** True when no stretches of a bin overlap: then of the sessions opened only the last can still be of use. */
function isPlain({ runs, station }: Bin, { lattices }: Instance): boolean {
	return runs.every((run) => lattices[station]?.runs[run]?.stretches.length === 1);
}

/** The ways to book sets of people in a bin: kept while a table is made. */
class Ways {
	readonly #isPlain: boolean;
	readonly #opening: number;
	count = 0;
	cost = new Float64Array(1024);
	end = new Int32Array(1024);
	/** Sessions opened in which somebody could still start: one bit each, or in a plain bin the number of the only one. */
	live = new Int32Array(1024);
	/** Who comes last, in which slot, after which way. */
	who = new Int32Array(1024);
	slot = new Int32Array(1024);
	before = new Int32Array(1024);

	constructor(isPlain: boolean, opening: number) {
		this.#isPlain = isPlain;
		this.#opening = opening;
	}

	push(cost: number, end: number, live: number, who: number, slot: number, before: number): void {
		if (this.count === this.cost.length) this.#grow();
		const at = this.count++;
		this.cost[at] = cost;
		this.end[at] = end;
		this.live[at] = live;
		this.who[at] = who;
		this.slot[at] = slot;
		this.before[at] = before;
	}

	#grow(): void {
		const size = 2 * this.cost.length;
		const costs = new Float64Array(size);
		costs.set(this.cost);
		this.cost = costs;
		for (const name of ['end', 'live', 'who', 'slot', 'before'] as const) {
			const grown = new Int32Array(size);
			grown.set(this[name]);
			this[name] = grown;
		}
	}

	/** Adds a way to those from `first` on unless one of them is as good; takes out those that it beats. */
	keep(first: number, cost: number, end: number, live: number, who: number, slot: number, before: number): void {
		for (let at = first; at < this.count; at++) {
			if (this.#beats(this.cost[at] as number, this.end[at] as number, this.live[at] as number, cost, end, live))
				return;
		}
		let to = first;
		for (let at = first; at < this.count; at++) {
			if (this.#beats(cost, end, live, this.cost[at] as number, this.end[at] as number, this.live[at] as number))
				continue;
			if (to !== at) this.#move(at, to);
			to++;
		}
		this.count = to;
		this.push(cost, end, live, who, slot, before);
	}

	/** As cheap, as early free, and with every session of the other open, or cheaper by what opening it costs. */
	#beats(cost: number, end: number, live: number, otherCost: number, otherEnd: number, otherLive: number): boolean {
		if (end > otherEnd || cost > otherCost) return false;
		if (otherLive === live || otherLive === 0) return true;
		const missing = this.#isPlain ? 1 : bitsOf(otherLive & ~live);
		return cost + this.#opening * missing <= otherCost;
	}

	#move(from: number, to: number): void {
		this.cost[to] = this.cost[from] as number;
		this.end[to] = this.end[from] as number;
		this.live[to] = this.live[from] as number;
		this.who[to] = this.who[from] as number;
		this.slot[to] = this.slot[from] as number;
		this.before[to] = this.before[from] as number;
	}
}

/** What a bin table is made from. */
export interface BinTerms {
	readonly instance: Instance;
	readonly scale: CostScale;
}

/**
 * The least cost of each set of people in a bin, by set (bit i: the i-th of `tracks`); Infinity for sets that do not fit. `read`
 * gets the ways, of which those of a set lie from its place in `first` up to the next.
 */
export function binTable(
	bin: Bin,
	tracks: readonly (readonly Track[])[],
	{ instance, scale }: BinTerms,
	read?: (ways: Ways, first: Int32Array) => void
): Float64Array {
	const size = 2 ** tracks.length;
	const extender = new Extender(bin, tracks, isPlain(bin, instance), scale.session);
	const { ways } = extender;
	const first = new Int32Array(size + 1);
	const table = new Float64Array(size).fill(Infinity);
	table[0] = 0;
	ways.push(0, -1, 0, -1, -1, -1);
	first[1] = 1;
	for (let set = 1; set < size; set++) {
		const start = ways.count;
		for (let person = 0, rest = set; rest !== 0; person++, rest >>>= 1) {
			if ((rest & 1) === 0) continue;
			const others = set ^ (1 << person);
			for (let before = first[others] as number; before < (first[others + 1] as number); before++) {
				extender.extend(start, before, person);
			}
		}
		for (let at = start; at < ways.count; at++) table[set] = Math.min(table[set] as number, ways.cost[at] as number);
		first[set + 1] = ways.count;
	}
	read?.(ways, first);
	return table;
}

class Extender {
	readonly ways: Ways;
	readonly #bin: Bin;
	readonly #tracks: readonly (readonly Track[])[];
	readonly #isPlain: boolean;
	readonly #opening: number;
	/** The last slot of each session in which anybody could start. */
	readonly #lastOf: Int32Array;

	constructor(bin: Bin, tracks: readonly (readonly Track[])[], isPlainBin: boolean, opening: number) {
		this.ways = new Ways(isPlainBin, opening);
		this.#bin = bin;
		this.#tracks = tracks;
		this.#isPlain = isPlainBin;
		this.#opening = opening;
		this.#lastOf = lastSlots(bin, tracks);
	}

	/** Books one more after a way: as early as possible in each session. */
	extend(start: number, before: number, person: number): void {
		const { ways } = this;
		const end = ways.end[before] as number;
		const cost = ways.cost[before] as number;
		const live = ways.live[before] as number;
		for (const { session, slots, ends, costs } of this.#tracks[person] as readonly Track[]) {
			if (slots.length === 0 || (slots[slots.length - 1] as number) < end) continue;
			let [low, high] = [0, slots.length - 1];
			while (low < high) {
				const middle = (low + high) >>> 1;
				if ((slots[middle] as number) >= end) high = middle;
				else low = middle + 1;
			}
			const mark = this.#isPlain ? session + 1 : 1 << session;
			const isOpen = this.#bin.inUse[session] === true || (this.#isPlain ? live === mark : (live & mark) !== 0);
			const free = ends[low] as number;
			const then = this.#liveAt(live, session, mark, free);
			ways.keep(
				start,
				cost + (costs[low] as number) + (isOpen ? 0 : this.#opening),
				free,
				then,
				person,
				slots[low] as number,
				before
			);
		}
	}

	/** Sessions opened that could still be of use once the lane is free. */
	#liveAt(live: number, session: number, mark: number, free: number): number {
		if (this.#isPlain) return (this.#lastOf[session] as number) >= free && this.#bin.inUse[session] !== true ? mark : 0;
		let left = live | mark;
		for (let at = 0; at < this.#lastOf.length; at++) {
			if ((this.#lastOf[at] as number) < free || this.#bin.inUse[at] === true) left &= ~(1 << at);
		}
		return left;
	}
}

/** The last slot of each session in which anybody could start; -1 for none. */
function lastSlots({ inUse }: Bin, tracks: readonly (readonly Track[])[]): Int32Array {
	const last = new Int32Array(inUse.length).fill(-1);
	for (const own of tracks) {
		for (const { session, slots } of own) {
			last[session] = Math.max(last[session] as number, slots[slots.length - 1] ?? -1);
		}
	}
	return last;
}

/** The cheapest way to book all of some people in a bin, as places in `tracks` and slots; empty where there is none. */
export function bestWay(
	bin: Bin,
	tracks: readonly (readonly Track[])[],
	terms: BinTerms
): { person: number; slot: number }[] {
	const found: { person: number; slot: number }[] = [];
	binTable(bin, tracks, terms, (ways, first) => {
		const all = 2 ** tracks.length - 1;
		let best = -1;
		for (let at = first[all] as number; at < (first[all + 1] as number); at++) {
			if (best < 0 || (ways.cost[at] as number) < (ways.cost[best] as number)) best = at;
		}
		for (let at = best; at > 0; at = ways.before[at] as number) {
			found.push({ person: ways.who[at] as number, slot: ways.slot[at] as number });
		}
	});
	return found;
}

export function bitsOf(set: number): number {
	let bits = 0;
	for (let rest = set; rest !== 0; rest &= rest - 1) bits++;
	return bits;
}
