import { largestFlow } from './flow';
import type { Instance } from './instance';
import type { Gap, ProofSpace } from './proof-space';
import type { Window } from './windows';

/** Where lane time is missing: places of kinds that together ask for more than there is. */
export interface StationCut {
	readonly kinds: readonly number[];
	readonly unmetMinutes: number;
}

const known = new WeakMap<ProofSpace, StationCut>();

/** Where lane time is missing; reckoned once. Where time is over before it is known, nothing is said to be missing. */
export function stationCutOf(space: ProofSpace, isOver: () => boolean): StationCut {
	const before = known.get(space);
	if (before) return before;
	const cut = findStationCut(space, isOver);
	if (cut) known.set(space, cut);
	return cut ?? { kinds: [], unmetMinutes: 0 };
}

/** Finds the kinds that together ask for more lane time than they could use, by the flow in which bookings may be cut up. */
function findStationCut(space: ProofSpace, isOver: () => boolean): StationCut | undefined {
	if (isOver()) return undefined;
	const { instance, gaps } = space;
	const isRounded = gaps.every(({ isEven }) => isEven);
	// What may be used hangs on the window alone; one with a window takes the same time as all others who have it.
	const spansByWindow = new Map<Window, readonly WindowSpan[]>();
	// Positions in minutes after the run's first slot, at which what somebody may use begins or ends.
	const marks = gaps.map(() => new Set<number>());
	for (const kind of instance.kinds) {
		if (isOver()) return undefined;
		kind.windows.forEach((window, station) => {
			if (!window || spansByWindow.has(window)) return;
			const taken = space.takenAt(kind, station, isRounded);
			const spans = space.usesAt(kind, station).map(({ gap: index, lo, hi }): WindowSpan => {
				const gap = gaps[index] as Gap;
				const base = runStart(instance, gap);
				const [from, to] = [(space.instantOf(gap, lo) - base) / 60, (space.instantOf(gap, hi) - base) / 60 + taken];
				marks[index]?.add(from).add(to);
				return { gap: index, from, to };
			});
			spansByWindow.set(window, spans);
		});
	}
	const supplies: number[] = [];
	const places = marks.map((set, index) => {
		const sorted = [...set].sort((a, b) => a - b);
		const place = new Map<number, number>();
		sorted.forEach((mark, at) => {
			place.set(mark, supplies.length);
			const end = sorted[at + 1];
			if (end !== undefined) supplies.push((end - mark) * (gaps[index] as Gap).lanes.length);
		});
		return place;
	});
	const rangesByWindow = new Map<Window, readonly number[]>();
	for (const [window, spans] of spansByWindow) {
		if (isOver()) return undefined;
		const flat: number[] = [];
		for (const { gap, from, to } of spans) pushRange(flat, places[gap]?.get(from) ?? 0, places[gap]?.get(to) ?? 0);
		rangesByWindow.set(window, flat);
	}
	const ranges: number[][] = [];
	for (const { windows } of instance.kinds) {
		if (isOver()) return undefined;
		const flat: number[] = [];
		for (const window of windows) {
			const own = (window && rangesByWindow.get(window)) ?? [];
			for (let at = 0; at < own.length; at += 2) pushRange(flat, own[at] as number, own[at + 1] as number);
		}
		ranges.push(flat);
	}
	const demands = instance.kinds.map((kind, index) =>
		!space.isUsable(index) ? 0 : kind.members.length * space.leastTaken(index, isRounded)
	);
	const flow = largestFlow({ demands, ranges, supplies }, isOver);
	if (!flow) return undefined;
	const { unmet, cut } = flow;
	return { kinds: cut.filter((kind) => (demands[kind] as number) > 0), unmetMinutes: unmet };
}

/** What a window allows of a gap, in minutes after the run's first slot, the time at the station included. */
interface WindowSpan {
	readonly gap: number;
	readonly from: number;
	readonly to: number;
}

/** Adds a range behind the others; uses of one gap may overlap once the time at the station is added. */
function pushRange(flat: number[], from: number, to: number): void {
	if (flat.length > 0 && (flat.at(-1) as number) >= from) flat[flat.length - 1] = Math.max(to, flat.at(-1) as number);
	else flat.push(from, to);
}

function runStart(instance: Instance, gap: Gap): number {
	const lattice = instance.lattices[gap.station];
	return lattice?.at[lattice.runFirst[gap.run] as number] ?? 0;
}
