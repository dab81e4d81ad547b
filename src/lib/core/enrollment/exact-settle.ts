import type { Board, Lane } from './board';
import { type Bin, type BinTerms, type Track, bestWay, binTable, tracksOf, trackWhere } from './exact-bins';
import { join } from './exact-join';

/** What an exact search may still cost; when it is spent, or time is over, nothing is sure. */
export interface Effort {
	/** Counts so much work; false when no more may be done. */
	spend(work: number): boolean;
}

/** Somebody (a place in the list of people) who is booked in a lane. */
export interface Placed {
	readonly person: number;
	readonly lane: number;
	readonly slot: number;
}

/** The cheapest way to book some people in some bins, away-limits kept; the cost is Infinity where there is none. */
export interface Settled {
	readonly cost: number;
	readonly placed: readonly Placed[];
}

/** What is asked of one person: minutes (instants) in which they must not be away, and in which they must. */
interface Asked {
	readonly key: string;
	readonly bans: readonly number[];
	readonly musts: readonly number[];
}

const nothing: Asked = { key: '', bans: [], musts: [] };

interface Node {
	/** By member. */
	readonly asked: readonly Asked[];
	readonly cost: number;
	readonly placed: readonly Placed[];
}

interface Tracks {
	readonly id: number;
	readonly tracks: readonly Track[];
}

/**
 * Books sets of people in bins that away-limits bind together.
 *
 * The idea: the cheapest plan without regard to limits is asked for. Where too many of a department are away at some minute, the
 * question is split: the first of them is not away then; or the first is and the second is not; and so on, up to as many as may be
 * away. Of people who are alike in everything asked so far one is enough. The open question with the cheapest plan goes first,
 * so the first plan that keeps all limits is the best.
 * @source A. H. Land and A. G. Doig, An automatic method of solving discrete programming problems (1960)
 */
export class LimitSearch {
	readonly #board: Board;
	readonly #bins: readonly Bin[];
	/** As places on the board. */
	readonly #people: readonly number[];
	readonly #terms: BinTerms;
	readonly #effort: Effort;
	readonly #tracks = new Map<string, Tracks>();
	readonly #tables = new Map<string, Float64Array>();

	constructor(board: Board, bins: readonly Bin[], people: readonly number[], terms: BinTerms, effort: Effort) {
		this.#board = board;
		this.#bins = bins;
		this.#people = people;
		this.#terms = terms;
		this.#effort = effort;
	}

	/** The least cost of every set of people, without regard to limits. */
	relaxed(): Float64Array {
		const tables = this.#bins.map((bin, index) => {
			const tracks = this.#people.map((person) => this.#tracksOf(index, person, nothing).tracks);
			return { table: binTable(bin, tracks, this.#terms), copies: Math.min(bin.lanes.length, this.#people.length) };
		});
		const [only] = tables;
		return tables.length === 1 && only?.copies === 1 ? only.table : join(tables, this.#people.length).cost;
	}

	/** The best way to book all of a set (bit i: the i-th person); undefined where the effort is spent before it is known. */
	settle(set: number): Settled | undefined {
		const members = [...this.#people.keys()].filter((index) => ((set >>> index) & 1) === 1);
		const open: Node[] = [];
		const add = (asked: readonly Asked[]): boolean => {
			if (!this.#effort.spend(this.#bins.length * 2 ** members.length * members.length + 3 ** members.length))
				return false;
			const node = this.#plan(members, asked);
			if (node) open.push(node);
			return true;
		};
		if (!add(members.map(() => nothing))) return undefined;
		for (;;) {
			const node = takeCheapest(open);
			if (!node) return { cost: Infinity, placed: [] };
			const splits = this.#splitsOf(members, node);
			if (!splits) return { cost: node.cost, placed: node.placed };
			for (const asked of splits) if (!add(asked)) return undefined;
		}
	}

	/** The cheapest plan for members of whom something is asked; undefined when there is none. */
	#plan(members: readonly number[], asked: readonly Asked[]): Node | undefined {
		const own = this.#bins.map((bin, index) => {
			const tracks = members.map((member, at) =>
				this.#tracksOf(index, this.#people[member] as number, asked[at] as Asked)
			);
			return { bin, tracks };
		});
		const useful = own.filter(({ tracks }) => tracks.some((one) => one.tracks.length > 0));
		const parts = useful.map(({ bin, tracks }) => {
			const key = `${this.#bins.indexOf(bin)} ${tracks.map(({ id }) => id).join(' ')}`;
			let table = this.#tables.get(key);
			if (!table)
				this.#tables.set(
					key,
					(table = binTable(
						bin,
						tracks.map((one) => one.tracks),
						this.#terms
					))
				);
			return { table, copies: Math.min(bin.lanes.length, members.length) };
		});
		const joint = join(parts, members.length);
		const all = 2 ** members.length - 1;
		const cost = joint.cost[all] as number;
		if (cost === Infinity) return undefined;
		const placed = joint.sharesOf(all).flatMap(({ part, copy, set }) => {
			const { bin, tracks } = useful[part] as (typeof useful)[number];
			const inside = [...members.keys()].filter((at) => ((set >>> at) & 1) === 1);
			const way = bestWay(
				bin,
				inside.map((at) => (tracks[at] as Tracks).tracks),
				this.#terms
			);
			return way.map(({ person, slot }) => ({
				person: members[inside[person] as number] as number,
				lane: bin.lanes[copy] as number,
				slot
			}));
		});
		return { asked, cost, placed };
	}

	#tracksOf(index: number, person: number, asked: Asked): Tracks {
		const kind = this.#board.instance.kindOf[person] as number;
		const key = `${index} ${kind} ${asked.key}`;
		let known = this.#tracks.get(key);
		if (known) return known;
		if (asked === nothing) {
			const tracks = tracksOf(this.#board, this.#bins[index] as Bin, this.#board.kindOf(person), this.#terms.scale);
			known = { id: this.#tracks.size, tracks };
		} else {
			const all = this.#tracksOf(index, person, nothing);
			const { station } = this.#bins[index] as Bin;
			const isKept = (slot: number): boolean => {
				const { from, to } = this.#away(person, station, slot);
				return asked.bans.every((at) => at < from || to <= at) && asked.musts.every((at) => from <= at && at < to);
			};
			const tracks = all.tracks.map((track) => trackWhere(track, isKept));
			known = tracks.every((track, at) => track === all.tracks[at])
				? all
				: { id: this.#tracks.size, tracks: tracks.filter(({ slots }) => slots.length > 0) };
		}
		this.#tracks.set(key, known);
		return known;
	}

	#away(person: number, station: number, slot: number): { from: number; to: number } {
		return awaySpan(this.#board, person, station, slot);
	}

	/** What to ask instead, so that one crowd at least is gone; undefined where no limit is broken. */
	#splitsOf(members: readonly number[], node: Node): (readonly Asked[])[] | undefined {
		let fewest: (readonly Asked[])[] | undefined;
		const { instance } = this.#board;
		for (const [limit, { maxAway }] of instance.limits.entries()) {
			const own = node.placed
				.filter(({ person }) => this.#board.kindOf(this.#people[person] as number).limit === limit)
				.map(({ person, lane, slot }) => ({
					at: members.indexOf(person),
					...this.#away(this.#people[person] as number, (this.#board.lanes[lane] as Lane).station, slot)
				}))
				.filter(({ from, to }) => from < to);
			const standing = instance.standing
				.filter((one) => one.limit === limit)
				.map(({ from, to, walk }) => ({ from: from - walk, to: to + walk }));
			for (const { from: instant } of [...own, ...standing]) {
				const isThen = ({ from, to }: { from: number; to: number }): boolean => from <= instant && instant < to;
				const crowd = own.filter(isThen).map(({ at }) => at);
				const room = maxAway - standing.filter(isThen).length;
				if (crowd.length <= Math.max(room, 0)) continue;
				const splits = this.#splitsAt(members, node.asked, crowd, instant, room, limit);
				if (!fewest || splits.length < fewest.length) fewest = splits;
			}
		}
		return fewest;
	}

	#splitsAt(
		members: readonly number[],
		asked: readonly Asked[],
		crowd: readonly number[],
		instant: number,
		room: number,
		limit: number
	): (readonly Asked[])[] {
		const likenessOf = (at: number): string =>
			`${this.#board.instance.kindOf[this.#people[members[at] as number] as number]} ${(asked[at] as Asked).key}`;
		const isMust = (at: number): boolean => (asked[at] as Asked).musts.includes(instant);
		const musts = crowd.filter(isMust).length;
		const rest = crowd.filter((at) => !isMust(at)).sort((a, b) => (likenessOf(a) < likenessOf(b) ? -1 : 1));
		const splits: (readonly Asked[])[] = [];
		const seen = new Set<string>();
		for (let count = 0; count <= room - musts && count < rest.length; count++) {
			const likeness = likenessOf(rest[count] as number);
			if (seen.has(likeness)) continue;
			seen.add(likeness);
			const isFull = musts + count === room;
			splits.push(
				asked.map((one, at) => {
					const place = rest.indexOf(at);
					if (place >= 0 && place < count) return withMust(one, instant);
					const isOwn = this.#board.kindOf(this.#people[members[at] as number] as number).limit === limit;
					return place === count || (isFull && isOwn && !isMust(at)) ? withBan(one, instant) : one;
				})
			);
		}
		return splits;
	}
}

/** When somebody is away for a booking in a slot. */
export function awaySpan(board: Board, person: number, station: number, slot: number): { from: number; to: number } {
	const kind = board.kindOf(person);
	const at = board.instance.lattices[station]?.at[slot] as number;
	const walk = kind.walks[station] as number;
	return { from: at - walk, to: at + kind.minutes * 60 + walk };
}

function withBan(asked: Asked, at: number): Asked {
	return askedOf([...asked.bans, at], asked.musts);
}

function withMust(asked: Asked, at: number): Asked {
	return askedOf(asked.bans, [...asked.musts, at]);
}

function askedOf(bans: readonly number[], musts: readonly number[]): Asked {
	const sorted = (list: readonly number[]): number[] => [...new Set(list)].sort((a, b) => a - b);
	const own = { bans: sorted(bans), musts: sorted(musts) };
	return { ...own, key: `${own.bans.join()};${own.musts.join()}` };
}

function takeCheapest(open: Node[]): Node | undefined {
	let best = open.length - 1;
	for (let index = open.length - 2; index >= 0; index--) {
		if ((open[index] as Node).cost < (open[best] as Node).cost) best = index;
	}
	const node = open[best];
	open.splice(best, 1);
	return node;
}
