import type { Board } from './board';
import {
	type Bin,
	type BinTerms,
	type Track,
	bestWay,
	binTable,
	binsOf,
	bitsOf,
	costScale,
	hasTooManySessions,
	tracksOf
} from './exact-bins';
import { type Part, join } from './exact-join';
import { type Effort, LimitSearch, type Placed, type Settled, awaySpan } from './exact-settle';

/**
 * The best plan there is for a few people, in all five goals at once.
 *
 * The idea: for each bin the least cost of booking every set of people is known (`exact-bins`), and so for each *room*: bins between
 * which an away-limit could bind. Rooms hang together by their people alone, so joining their tables gives the best plan
 * (`exact-join`). What a room costs is at first reckoned without its limits, and settled with them (`exact-settle`) only for
 * the sets that a best plan asks for, until nothing that it is made of costs more than was reckoned.
 */
export interface ExactPlan {
	readonly bookings: readonly { readonly person: number; readonly lane: number; readonly slot: number }[];
	readonly goal: Goal;
	/** Fewest further sessions in which as many people can be booked, whoever they are. */
	readonly fewestSessions: number;
}

/** What a plan reaches, to be compared goal by goal: people by due date after their number, then the others. */
export interface Goal {
	readonly booked: number;
	readonly byRank: readonly number[];
	/** Further sessions, minutes walked, and the sum of starts in minutes since the first slot of all. */
	readonly sessions: number;
	readonly walked: number;
	readonly starts: number;
}

/** People beyond whom sets of them are too many. */
const mostPeople = 16;

/** Work beyond which no answer is looked for where no clock says when to stop: some seconds. */
const mostWork = 3e9;

/**
 * The best plan for some people on a board on which nobody is booked yet; undefined where it is not sure of it: too many
 * people, or too much work for the time.
 */
export function exactPlan(board: Board, people: readonly number[], isOver: () => boolean): ExactPlan | undefined {
	const { instance } = board;
	if (people.length > mostPeople) return undefined;
	const takesNothing = people.some(
		(person) =>
			board.kindOf(person).minutes === 0 && instance.lattices.some(({ ready }) => ready.station.turnoverMinutes === 0)
	);
	const scale = costScale(instance, people.length);
	if (!scale || takesNothing) return undefined;
	const bins = binsOf(board, people);
	if (bins.some((bin) => hasTooManySessions(board, bin))) return undefined;
	let left = mostWork;
	const effort: Effort = { spend: (work) => (left -= work) > 0 && !isOver() };
	return new ExactSearch(board, people, bins, { instance, scale }, effort).best();
}

/** Bins between which limits could bind; without such limits one bin, any of whose lanes will do. */
interface Room {
	readonly search: LimitSearch | undefined;
	readonly bins: readonly Bin[];
	readonly copies: number;
	/** Never more than what booking a set costs. */
	readonly table: Float64Array;
	/** What was settled, by the kinds of a set. */
	readonly settled: Map<number, Settled>;
}

class ExactSearch {
	readonly #board: Board;
	readonly #people: readonly number[];
	readonly #terms: BinTerms;
	readonly #effort: Effort;
	readonly #bins: readonly Bin[];
	#rooms: Room[] = [];
	/** By set: a number that sets of the same kinds share, and such sets by it. */
	readonly #likeness: Int32Array;
	readonly #alike = new Map<number, number[]>();

	constructor(board: Board, people: readonly number[], bins: readonly Bin[], terms: BinTerms, effort: Effort) {
		this.#board = board;
		this.#people = people;
		this.#terms = terms;
		this.#effort = effort;
		this.#bins = bins;
		this.#likeness = this.#likenesses();
	}

	best(): ExactPlan | undefined {
		if (!this.#makeRooms()) return undefined;
		const found = this.#settle((cost) => this.#bestSet(cost));
		if (!found) return undefined;
		const goal = this.#goalOf(found.set, found.cost);
		const fewest = this.#settle((cost) => this.#fewestSet(cost, goal.booked));
		if (!fewest) return undefined;
		return {
			goal,
			bookings: found.placed.map(({ person, lane, slot }) => ({ person: this.#people[person] as number, lane, slot })),
			fewestSessions: Math.floor(fewest.cost / this.#terms.scale.session)
		};
	}

	/** Tables of all rooms; false where the effort is spent before. */
	#makeRooms(): boolean {
		const size = 2 ** this.#people.length;
		for (const bins of this.#boundTogether()) {
			if (!this.#effort.spend(bins.length * size * this.#people.length * 10)) return false;
			const [first] = bins as [Bin];
			const isFree = bins.length === 1 && !this.#limitsAt(first);
			const search = new LimitSearch(this.#board, bins, this.#people, this.#terms, this.#effort);
			const table = isFree
				? binTable(
						first,
						this.#people.map((person) => this.#tracksAt(first, person)),
						this.#terms
					)
				: search.relaxed();
			const copies = isFree ? Math.min(first.lanes.length, this.#people.length) : 1;
			this.#rooms.push({ search: isFree ? undefined : search, bins, copies, table, settled: new Map() });
		}
		return true;
	}

	/** Limits that more of the people could break than there is room for. */
	#bindingLimits(): ReadonlySet<number> {
		const { limits, standing } = this.#board.instance;
		const counts = limits.map((_, limit) => standing.filter((one) => one.limit === limit).length);
		for (const person of this.#people) {
			const { limit } = this.#board.kindOf(person);
			if (limit >= 0) counts[limit] = (counts[limit] as number) + 1;
		}
		return new Set(limits.flatMap(({ maxAway }, limit) => ((counts[limit] as number) > maxAway ? [limit] : [])));
	}

	#limitsAt(bin: Bin): boolean {
		const binding = this.#bindingLimits();
		return this.#people.some((person) => {
			const kind = this.#board.kindOf(person);
			return binding.has(kind.limit) && kind.windows[bin.station] && this.#awayIn(bin, person) !== undefined;
		});
	}

	/** From when to when somebody could be away for a booking in a bin. */
	#awayIn({ runs, station }: Bin, person: number): { from: number; to: number } | undefined {
		const window = this.#board.kindOf(person).windows[station];
		if (!window) return undefined;
		let span: { from: number; to: number } | undefined;
		for (const run of runs) {
			for (let at = window.first[run] as number; at < (window.first[run + 1] as number); at++) {
				const { from } = awaySpan(this.#board, person, station, window.lo[at] as number);
				const { to } = awaySpan(this.#board, person, station, window.hi[at] as number);
				span = { from: Math.min(from, span?.from ?? from), to: Math.max(to, span?.to ?? to) };
			}
		}
		return span;
	}

	/** The bins in groups: those in which people of one limit could be away at the same time are in one. */
	#boundTogether(): Bin[][] {
		const groupOf = this.#bins.map((_, index) => index);
		const rootOf = (index: number): number => {
			let at = index;
			while (groupOf[at] !== at) at = groupOf[at] as number;
			return at;
		};
		for (const limit of this.#bindingLimits()) {
			const own = this.#people.filter((person) => this.#board.kindOf(person).limit === limit);
			const spans = this.#bins.flatMap((bin, index) => {
				const each = own.flatMap((person) => this.#awayIn(bin, person) ?? []);
				const from = each.reduce((least, one) => Math.min(least, one.from), Infinity);
				const to = each.reduce((most, one) => Math.max(most, one.to), -Infinity);
				return from < to ? [{ index, from, to }] : [];
			});
			spans.sort((a, b) => a.from - b.from);
			let until = -Infinity;
			let before = -1;
			for (const { index, from, to } of spans) {
				if (from < until) groupOf[rootOf(index)] = rootOf(before);
				if (to > until) [until, before] = [to, index];
			}
		}
		const groups = new Map<number, Bin[]>();
		this.#bins.forEach((bin, index) => {
			const root = rootOf(index);
			const group = groups.get(root);
			if (group) group.push(bin);
			else groups.set(root, [bin]);
		});
		return [...groups.values()];
	}

	/**
	 * Settles what the plan for the set that is chosen by the costs is made of, until it costs what was reckoned; undefined where
	 * the effort is spent before.
	 */
	#settle(choose: (cost: Float64Array) => number): { set: number; cost: number; placed: Placed[] } | undefined {
		for (;;) {
			if (!this.#effort.spend(3 ** this.#people.length * 8)) return undefined;
			const parts: Part[] = this.#rooms.map(({ table, copies }) => ({ table, copies }));
			const joint = join(parts, this.#people.length);
			const set = choose(joint.cost);
			const placed: Placed[] = [];
			let isSettled = true;
			for (const share of joint.sharesOf(set)) {
				const room = this.#rooms[share.part] as Room;
				const settled = this.#settledIn(room, share.set, share.copy);
				if (!settled) return undefined;
				placed.push(...settled.placed);
				if (settled.cost > (room.table[share.set] as number)) {
					isSettled = false;
					this.#raise(room, share.set, settled.cost);
				}
			}
			if (isSettled) return { set, cost: joint.cost[set] as number, placed };
		}
	}

	#settledIn(room: Room, set: number, copy: number): Settled | undefined {
		if (!room.search) return this.#inFreeBin(room.bins[0] as Bin, set, copy);
		const likeness = this.#likeness[set] as number;
		let settled = room.settled.get(likeness);
		if (!settled) {
			settled = room.search.settle(set);
			if (!settled) return undefined;
			room.settled.set(likeness, settled);
		}
		return { cost: settled.cost, placed: this.#renamed(settled.placed, set) };
	}

	/** In a bin in which no limit binds a set costs what was reckoned. */
	#inFreeBin(bin: Bin, set: number, copy: number): Settled {
		const members = [...this.#people.keys()].filter((index) => ((set >>> index) & 1) === 1);
		const tracks = members.map((index) => this.#tracksAt(bin, this.#people[index] as number));
		const way = bestWay(bin, tracks, this.#terms);
		const lane = bin.lanes[copy] as number;
		return { cost: 0, placed: way.map(({ person, slot }) => ({ person: members[person] as number, lane, slot })) };
	}

	#tracksAt(bin: Bin, person: number): Track[] {
		return tracksOf(this.#board, bin, this.#board.kindOf(person), this.#terms.scale);
	}

	/** Gives bookings to the people of a set of the same kinds. */
	#renamed(placed: readonly Placed[], set: number): Placed[] {
		const free = [...this.#people.keys()].filter((index) => ((set >>> index) & 1) === 1);
		return placed.map((one) => {
			const kind = this.#kindAt(one.person);
			const at = free.findIndex((index) => this.#kindAt(index) === kind);
			return { ...one, person: free.splice(at, 1)[0] as number };
		});
	}

	#kindAt(index: number): number {
		return this.#board.instance.kindOf[this.#people[index] as number] as number;
	}

	/** Notes what a set costs in a room: so do all of the same kinds, and larger ones cost as much and what the others take at least. */
	#raise({ table, bins }: Room, set: number, cost: number): void {
		const all = 2 ** this.#people.length - 1;
		const alone = this.#people.map((person) => this.#leastAlone(bins, person));
		for (const same of this.#alike.get(this.#likeness[set] as number) ?? []) {
			const others = all - same;
			for (let more = others; ; more = (more - 1) & others) {
				const least = this.#sumOver(alone, more) + cost;
				if (least > (table[same | more] as number)) table[same | more] = least;
				if (more === 0) break;
			}
		}
	}

	/** The least that somebody costs in some bins, a session left out. */
	#leastAlone(bins: readonly Bin[], person: number): number {
		let least = Infinity;
		for (const bin of bins) {
			for (const { costs } of this.#tracksAt(bin, person)) {
				least = costs.reduce((best, cost) => Math.min(best, cost), least);
			}
		}
		return least;
	}

	#sumOver(values: readonly number[], set: number): number {
		let sum = 0;
		for (let index = 0, rest = set; rest !== 0; index++, rest >>>= 1)
			if ((rest & 1) === 1) sum += values[index] as number;
		return sum;
	}

	#bestSet(cost: Float64Array): number {
		let best = 0;
		let goal = this.#goalOf(0, 0);
		for (let set = 1; set < cost.length; set++) {
			if (cost[set] === Infinity || bitsOf(set) < goal.booked) continue;
			const other = this.#goalOf(set, cost[set] as number);
			if (isBetter(other, goal)) [best, goal] = [set, other];
		}
		return best;
	}

	/** Of all sets of so many people the cheapest, whoever they are. */
	#fewestSet(cost: Float64Array, booked: number): number {
		let best = -1;
		for (let set = 0; set < cost.length; set++) {
			if (bitsOf(set) === booked && (best < 0 || (cost[set] as number) < (cost[best] as number))) best = set;
		}
		return Math.max(0, best);
	}

	#goalOf(set: number, cost: number): Goal {
		const { session, walkMinute } = this.#terms.scale;
		const byRank = Array<number>(this.#board.instance.ranks).fill(0);
		this.#people.forEach((person, index) => {
			if (((set >>> index) & 1) === 0) return;
			const { rank } = this.#board.kindOf(person);
			byRank[rank] = (byRank[rank] as number) + 1;
		});
		const rest = cost % session;
		return {
			booked: bitsOf(set),
			byRank,
			sessions: Math.floor(cost / session),
			walked: Math.floor(rest / walkMinute),
			starts: rest % walkMinute
		};
	}

	#likenesses(): Int32Array {
		const size = 2 ** this.#people.length;
		const likeness = new Int32Array(size);
		const known = new Map<string, number>();
		const kinds = [...new Set(this.#people.map((_, index) => this.#kindAt(index)))];
		for (let set = 0; set < size; set++) {
			const counts = kinds.map(() => 0);
			for (let index = 0, rest = set; rest !== 0; index++, rest >>>= 1) {
				if ((rest & 1) === 0) continue;
				const at = kinds.indexOf(this.#kindAt(index));
				counts[at] = (counts[at] as number) + 1;
			}
			const key = counts.join();
			const number = known.get(key) ?? known.size;
			known.set(key, number);
			likeness[set] = number;
			const alike = this.#alike.get(number);
			if (alike) alike.push(set);
			else this.#alike.set(number, [set]);
		}
		return likeness;
	}
}

/** True when the first reaches more than the second. */
export function isBetter(a: Goal, b: Goal): boolean {
	if (a.booked !== b.booked) return a.booked > b.booked;
	for (const [rank, count] of a.byRank.entries()) {
		const other = b.byRank[rank] ?? 0;
		if (count !== other) return count > other;
	}
	if (a.sessions !== b.sessions) return a.sessions < b.sessions;
	return a.walked !== b.walked ? a.walked < b.walked : a.starts < b.starts;
}
