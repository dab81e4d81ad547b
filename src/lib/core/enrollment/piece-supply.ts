import type { Kind } from './instance';
import type { Supply } from './least-list';
import type { Gap, ProofSpace } from './proof-space';

/** What one kind can use of a gap, in seconds. */
interface Extent {
	readonly gap: number;
	readonly from: number;
	readonly to: number;
}

/**
 * Lane time as `piecesOf` counts it, of each gap from the earliest start to the latest end, kept up to date as kinds are taken
 * away: only where a kind alone reaches out farthest does a piece shrink. Cost of a question: the gaps of the kind.
 */
export class PieceSupply implements Supply {
	available = 0;
	readonly #space: ProofSpace;
	readonly #extents = new Map<number, readonly Extent[]>();
	/** By gap: extents of the kinds that are left. */
	readonly #byGap = new Map<number, Map<number, Extent>>();
	readonly #ends = new Map<number, { from: number; to: number; atFrom: number; atTo: number }>();

	constructor(space: ProofSpace, kinds: Iterable<number>) {
		this.#space = space;
		for (const kind of kinds) {
			const extents = extentsOf(space, kind);
			this.#extents.set(kind, extents);
			for (const extent of extents) {
				const inGap = this.#byGap.get(extent.gap) ?? new Map<number, Extent>();
				inGap.set(kind, extent);
				this.#byGap.set(extent.gap, inGap);
			}
		}
		for (const [gap, inGap] of this.#byGap) {
			this.#ends.set(gap, endsOf(inGap.values()));
			this.available += this.#worth(gap, this.#ends.get(gap));
		}
	}

	without(group: number): number {
		return (this.#extents.get(group) ?? []).reduce((sum, extent) => sum + this.#change(group, extent), this.available);
	}

	remove(group: number): void {
		for (const extent of this.#extents.get(group) ?? []) {
			this.available += this.#change(group, extent);
			const inGap = this.#byGap.get(extent.gap);
			inGap?.delete(group);
			this.#ends.set(extent.gap, endsOf(inGap?.values() ?? []));
		}
		this.#extents.delete(group);
	}

	/** How much less a gap is worth when a kind no longer uses it; never above 0. */
	#change(group: number, extent: Extent): number {
		const ends = this.#ends.get(extent.gap);
		if (!ends) return 0;
		const isAlone = (extent.from === ends.from && ends.atFrom === 1) || (extent.to === ends.to && ends.atTo === 1);
		if (!isAlone) return 0;
		const others = [...(this.#byGap.get(extent.gap) ?? [])].filter(([kind]) => kind !== group).map(([, one]) => one);
		return this.#worth(extent.gap, endsOf(others)) - this.#worth(extent.gap, ends);
	}

	#worth(gapIndex: number, ends: { from: number; to: number } | undefined): number {
		const gap = this.#space.gaps[gapIndex] as Gap;
		if (!ends || ends.from > ends.to) return 0;
		if (!gap.isEven) return Infinity;
		const { gridMinutes, instance } = this.#space;
		const turnover = instance.lattices[gap.station]?.ready.station.turnoverMinutes ?? 0;
		return gap.lanes.length * Math.ceil(((ends.to - ends.from) / 60 + turnover) / gridMinutes) * gridMinutes;
	}
}

function extentsOf(space: ProofSpace, kindIndex: number): Extent[] {
	const kind = space.instance.kinds[kindIndex] as Kind;
	const extents: { gap: number; from: number; to: number }[] = [];
	for (const { gap, lo, hi } of space.usesOf(kindIndex)) {
		const from = space.instantOf(space.gaps[gap] as Gap, lo);
		const to = space.instantOf(space.gaps[gap] as Gap, hi) + kind.minutes * 60;
		const last = extents.at(-1);
		if (last?.gap === gap) {
			last.from = Math.min(last.from, from);
			last.to = Math.max(last.to, to);
		} else extents.push({ gap, from, to });
	}
	return extents;
}

function endsOf(extents: Iterable<Extent>): { from: number; to: number; atFrom: number; atTo: number } {
	const ends = { from: Infinity, to: -Infinity, atFrom: 0, atTo: 0 };
	for (const { from, to } of extents) {
		if (from < ends.from) [ends.from, ends.atFrom] = [from, 1];
		else if (from === ends.from) ends.atFrom++;
		if (to > ends.to) [ends.to, ends.atTo] = [to, 1];
		else if (to === ends.to) ends.atTo++;
	}
	return ends;
}
