import { largestFlow } from './flow';
import type { Instance } from './instance';
import type { Gap, ProofSpace, Use } from './proof-space';

/** Where lane time is missing: places of kinds that together ask for more than there is. */
export interface StationCut {
	readonly kinds: readonly number[];
	readonly unmetMinutes: number;
}

const known = new WeakMap<ProofSpace, StationCut>();

/** Where lane time is missing; reckoned once. */
export function stationCutOf(space: ProofSpace): StationCut {
	let cut = known.get(space);
	if (!cut) known.set(space, (cut = findStationCut(space)));
	return cut;
}

/** Finds the kinds that together ask for more lane time than they could use, by the flow in which bookings may be cut up. */
function findStationCut(space: ProofSpace): StationCut {
	const { instance, gaps } = space;
	const uses = instance.kinds.map((_, kind) => space.usesOf(kind));
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
		!space.isUsable(index) ? 0 : kind.members.length * space.leastTaken(index, isRounded)
	);
	const { unmet, cut } = largestFlow({ demands, ranges, supplies });
	return { kinds: cut.filter((kind) => (demands[kind] as number) > 0), unmetMinutes: unmet };
}

function runStart(instance: Instance, gap: Gap): number {
	const lattice = instance.lattices[gap.station];
	return lattice?.at[lattice.runFirst[gap.run] as number] ?? 0;
}
