import type { Instance, Kind } from './instance';
import type { Gap, ProofSpace } from './proof-space';
import type { Window } from './windows';

/**
 * What sessions may hold, seen generously: each gap as a few nested intervals of grid steps, and each group of people with the
 * interval that they could use. Bookings may be cut up; then amounts fit exactly when no interval holds more than its length of
 * those who must stay inside it. Windows that differ little are widened to a common one, which only makes room.
 */
export interface SessionRoom {
	readonly groups: readonly Group[];
	readonly gaps: readonly GapRoom[];
	/** By kind: its group; -1 for people who could use nothing. */
	readonly groupOf: Int32Array;
	/** By group: one of its kinds. */
	readonly kindOf: readonly number[];
}

/** People who can use the same gaps in the same intervals, and take as long there. */
export interface Group {
	readonly people: number;
	/** By station where they may go; shared by groups of one window. */
	readonly parts: readonly GroupPart[];
}

/** The gaps of one station that a group could use. */
export interface GroupPart {
	/** Places in `gaps`. */
	readonly gaps: Int32Array;
	/** By gap: begin and end of the interval, as places in the gap's marks. */
	readonly begins: Int32Array;
	readonly ends: Int32Array;
	/** Least grid steps that one takes there. */
	readonly steps: number;
	/** Steps of the longest interval that they could use there. */
	readonly most: number;
}

export interface GapRoom {
	readonly lanes: number;
	/** 0 where the session is in use anyway, else 1. */
	readonly cost: number;
	readonly begins: number;
	readonly ends: number;
	/** Steps that fit from a begin to an end, at [begin * ends + end]; 0 where the end is not behind. */
	readonly capacity: Float64Array;
	/** Steps that whole bookings can fill in all. */
	readonly whole: number;
}

/** Different begins, and different ends, of one gap that are told apart. */
const mostMarks = 5;

/** Groups times the gaps that each could use: what one look at everything costs. */
export function entriesOf({ groups }: SessionRoom): number {
	return groups.reduce((sum, { parts }) => parts.reduce((all, { gaps }) => all + gaps.length, sum), 0);
}

const known = new WeakMap<ProofSpace, SessionRoom>();

/** The room of all gaps and who could use it, by groups of people that look alike from here, which is reckoned once, or by kind. */
export function sessionRoom(space: ProofSpace, how: 'by group' | 'by kind' = 'by group'): SessionRoom {
	if (how === 'by kind') return reckonedRoom(space, true);
	let room = known.get(space);
	if (!room) known.set(space, (room = reckonedRoom(space, false)));
	return room;
}

function reckonedRoom(space: ProofSpace, isByKind: boolean): SessionRoom {
	const { gaps, instance } = space;
	const spansByWindow = new Map<Window, readonly GapSpan[]>();
	for (const kind of instance.kinds) {
		kind.windows.forEach((window, station) => {
			if (window && !spansByWindow.has(window)) spansByWindow.set(window, spansAt(space, kind, station));
		});
	}
	const begins: Set<number>[] = gaps.map(() => new Set());
	const ends: Set<number>[] = gaps.map(() => new Set());
	const lengths: Set<number>[] = gaps.map(() => new Set());
	for (const spans of spansByWindow.values()) {
		for (const { gap, from, to, steps } of spans) {
			begins[gap]?.add(from);
			ends[gap]?.add(to);
			lengths[gap]?.add(steps);
		}
	}
	const firsts = begins.map((set) =>
		thinned(
			[...set].sort((a, b) => a - b),
			'down'
		)
	);
	const lasts = ends.map((set) =>
		thinned(
			[...set].sort((a, b) => a - b),
			'up'
		)
	);
	const rooms = gaps.map((gap, index) =>
		roomOf(gap, firsts[index] ?? [], lasts[index] ?? [], lengths[index] ?? new Set())
	);
	const partOf = partsByWindow(spansByWindow, firsts, lasts, rooms);
	const groups: (Group & { people: number })[] = [];
	const places = new Map<string, number>();
	const kindOf: number[] = [];
	const groupOf = new Int32Array(instance.kinds.length).fill(-1);
	instance.kinds.forEach(({ windows, members }, kind) => {
		const parts = windows.flatMap((window) => (window ? [partOf(window)] : [])).filter((part) => part.gaps.length > 0);
		if (parts.length === 0) return;
		const key = isByKind ? String(kind) : parts.map(({ id }) => id).join(' ');
		let place = places.get(key);
		if (place === undefined) {
			places.set(key, (place = groups.length));
			groups.push({ people: 0, parts });
			kindOf.push(kind);
		}
		(groups[place] as { people: number }).people += members.length;
		groupOf[kind] = place;
	});
	return { groups, gaps: rooms, groupOf, kindOf };
}

interface WindowPart extends GroupPart {
	/** The same for windows that look alike from here. */
	readonly id: number;
}

/** What each window comes to in marks; windows that differ less than the marks share one. */
function partsByWindow(
	spansByWindow: ReadonlyMap<Window, readonly GapSpan[]>,
	firsts: readonly (readonly number[])[],
	lasts: readonly (readonly number[])[],
	rooms: readonly GapRoom[]
): (window: Window) => WindowPart {
	const parts = new Map<string, WindowPart>();
	const byWindow = new Map<Window, WindowPart>();
	return (window) => {
		let part = byWindow.get(window);
		if (part) return part;
		const spans = spansByWindow.get(window) ?? [];
		const begins = Int32Array.from(spans, ({ gap, from }) => lastAtMost(firsts[gap] ?? [], from));
		const ends = Int32Array.from(spans, ({ gap, to }) => (lasts[gap] ?? []).findIndex((end) => end >= to));
		const gaps = Int32Array.from(spans, ({ gap }) => gap);
		const steps = spans.reduce((least, one) => Math.min(least, one.steps), Infinity);
		const key = `${steps} ${gaps.join()} ${begins.join()} ${ends.join()}`;
		part = parts.get(key);
		if (!part) {
			const most = spans.reduce((best, { gap }, at) => {
				const room = rooms[gap] as GapRoom;
				return Math.max(best, room.capacity[(begins[at] as number) * room.ends + (ends[at] as number)] as number);
			}, 0);
			parts.set(key, (part = { id: parts.size, gaps, begins, ends, steps, most }));
		}
		byWindow.set(window, part);
		return part;
	};
}

interface GapSpan {
	readonly gap: number;
	/** In grid steps after the gap's run begins. */
	readonly from: number;
	readonly to: number;
	readonly steps: number;
}

/** What somebody of a kind could use of each gap of a station. */
function spansAt(space: ProofSpace, kind: Kind, station: number): GapSpan[] {
	const { instance, gridMinutes } = space;
	const lattice = instance.lattices[station] as Instance['lattices'][number];
	const spans: GapSpan[] = [];
	let last: { gap: number; from: number; to: number; steps: number } | undefined;
	for (const { gap, lo, hi } of space.usesAt(kind, station)) {
		const place = space.gaps[gap] as Gap;
		const base = lattice.at[lattice.runFirst[place.run] as number] as number;
		const steps = space.takenAt(kind, station, place.isEven) / gridMinutes;
		const from = (space.instantOf(place, lo) - base) / 60 / gridMinutes;
		const to = (space.instantOf(place, hi) - base) / 60 / gridMinutes + steps;
		if (last?.gap === gap) {
			last.from = Math.min(last.from, from);
			last.to = Math.max(last.to, to);
		} else spans.push((last = { gap, from, to, steps }));
	}
	return spans;
}

/** At most a few of some ascending marks: the least when ends are widened down, the greatest when up, and some between. */
function thinned(marks: readonly number[], side: 'down' | 'up'): number[] {
	if (marks.length <= mostMarks) return [...marks];
	const kept = Array.from({ length: mostMarks }, (_, index) =>
		side === 'down'
			? Math.floor((index * marks.length) / mostMarks)
			: Math.ceil(((index + 1) * marks.length) / mostMarks) - 1
	);
	return kept.map((index) => marks[index] as number);
}

function lastAtMost(marks: readonly number[], value: number): number {
	let at = 0;
	while (at + 1 < marks.length && (marks[at + 1] as number) <= value) at++;
	return at;
}

function roomOf(gap: Gap, begins: readonly number[], ends: readonly number[], lengths: ReadonlySet<number>): GapRoom {
	const capacity = new Float64Array(begins.length * ends.length);
	begins.forEach((begin, b) => ends.forEach((end, e) => (capacity[b * ends.length + e] = Math.max(0, end - begin))));
	const all = Math.max(0, (ends.at(-1) ?? 0) - (begins[0] ?? 0));
	return {
		lanes: gap.lanes.length,
		cost: gap.isInUse ? 0 : 1,
		begins: begins.length,
		ends: ends.length,
		capacity,
		whole: gap.isEven ? fillable(Math.round(all), lengths) : all
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
