import { byCodeUnits } from '../kernel/compare';
import { largestFlow } from './flow';
import type { Instance, Kind } from './instance';
import type { ProofSpace } from './proof-space';
import { type Gap, type Use } from './proof-space';

/** A piece of lane time in a proof; instants as RFC 3339 text. */
export interface ShortStretch {
	readonly station: string;
	readonly lane: number;
	readonly from: string;
	readonly to: string;
}

/** What would make a shortfall go away, and what it takes. */
export interface Remedy {
	readonly does: string;
	readonly minutes: number;
}

/** A proof that its people cannot all be booked, whoever else is left out. */
export interface Shortfall {
	readonly kind: 'station-time' | 'away-limit' | 'no-common-time';
	readonly people: readonly string[];
	readonly department?: string;
	readonly neededMinutes: number;
	readonly availableMinutes: number;
	readonly stretches: readonly ShortStretch[];
	readonly remedies: readonly Remedy[];
}

/** Where lane time is missing: places of kinds that together ask for more than there is. */
export interface StationCut {
	readonly kinds: readonly number[];
	readonly unmetMinutes: number;
}

/** Finds the kinds that together ask for more lane time than they could use, by the flow in which bookings may be cut up. */
export function findStationCut(space: ProofSpace): StationCut {
	const { instance, gaps, uses } = space;
	const isRounded = gaps.every(({ isEven }) => isEven);
	// Positions in minutes after the run's first slot, at which what somebody may use begins or ends.
	const marks = gaps.map(() => new Set<number>());
	const taken = instance.kinds.map((kind) => (gap: Gap) => space.takenAt(kind, gap.station, isRounded));
	const spanOf = (kind: number, use: Use): [number, number] => {
		const gap = gaps[use.gap] as Gap;
		const base = runStart(instance, gap);
		const from = (space.instantOf(gap, use.lo) - base) / 60;
		return [from, (space.instantOf(gap, use.hi) - base) / 60 + (taken[kind] as (gap: Gap) => number)(gap)];
	};
	uses.forEach((list, kind) =>
		list.forEach((use) => {
			for (const mark of spanOf(kind, use)) marks[use.gap]?.add(mark);
		})
	);
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
	const ranges = uses.map((list, kind) => {
		const flat: number[] = [];
		for (const use of list) {
			const [from, to] = spanOf(kind, use).map((mark) => places[use.gap]?.get(mark) ?? 0) as [number, number];
			// Uses of one gap may overlap once the time at the station is added.
			if (flat.length > 0 && (flat.at(-1) as number) >= from)
				flat[flat.length - 1] = Math.max(to, flat.at(-1) as number);
			else flat.push(from, to);
		}
		return flat;
	});
	const demands = instance.kinds.map((kind, index) =>
		(uses[index] as readonly Use[]).length === 0 ? 0 : kind.members.length * space.leastTaken(index, isRounded)
	);
	const { unmet, cut } = largestFlow({ demands, ranges, supplies });
	return { kinds: cut.filter((kind) => (demands[kind] as number) > 0), unmetMinutes: unmet };
}

function runStart(instance: Instance, gap: Gap): number {
	const lattice = instance.lattices[gap.station];
	return lattice?.at[lattice.runFirst[gap.run] as number] ?? 0;
}

/** The pieces of lane time that kinds could use, as the proof counts them, and what they are worth. */
export interface Pieces {
	readonly stretches: readonly ShortStretch[];
	readonly minutes: number;
	readonly isEven: boolean;
}

/**
 * Every piece of lane time that any of some kinds could use: of each gap the part from the earliest start to the latest end; with
 * `isFine`, the parts of it that somebody could really use.
 */
export function piecesOf(space: ProofSpace, kinds: Iterable<number>, isFine: boolean): Pieces {
	const spans = new Map<number, { from: number; to: number }[]>();
	for (const index of kinds) {
		const kind = space.instance.kinds[index] as Kind;
		for (const use of space.uses[index] as readonly Use[]) {
			const gap = space.gaps[use.gap] as Gap;
			const span = { from: space.instantOf(gap, use.lo), to: space.instantOf(gap, use.hi) + kind.minutes * 60 };
			const list = spans.get(use.gap);
			if (!list) spans.set(use.gap, [span]);
			else if (isFine) list.push(span);
			else {
				const whole = list[0] as { from: number; to: number };
				whole.from = Math.min(whole.from, span.from);
				whole.to = Math.max(whole.to, span.to);
			}
		}
	}
	const stretches: (ShortStretch & { at: number })[] = [];
	let minutes = 0;
	let isEven = true;
	const { zone } = space.instance.model;
	for (const [index, list] of spans) {
		const gap = space.gaps[index] as Gap;
		const station = space.instance.lattices[gap.station]?.ready.station;
		if (!station) continue;
		if (!gap.isEven) isEven = false;
		for (const { from, to } of merged(list, station.turnoverMinutes * 60)) {
			const worth = Math.ceil(((to - from) / 60 + station.turnoverMinutes) / space.gridMinutes) * space.gridMinutes;
			for (const lane of gap.lanes) {
				minutes += worth;
				const [start, end] = [zone.textOf(from as never), zone.textOf(to as never)];
				stretches.push({ station: station.id, lane, from: start, to: end, at: from });
			}
		}
	}
	stretches.sort((a, b) => byCodeUnits(a.station, b.station) || a.lane - b.lane || a.at - b.at);
	return { stretches: stretches.map(({ station, lane, from, to }) => ({ station, lane, from, to })), minutes, isEven };
}

/** Joins spans that overlap or lie no further apart than the turnover: apart, they would be worth more than together. */
function merged(spans: { from: number; to: number }[], turnover: number): { from: number; to: number }[] {
	const sorted = [...spans].sort((a, b) => a.from - b.from);
	const joined: { from: number; to: number }[] = [];
	for (const span of sorted) {
		const last = joined.at(-1);
		if (last && span.from <= last.to + turnover) last.to = Math.max(last.to, span.to);
		else joined.push({ ...span });
	}
	return joined;
}
