import { Board, type Lane, blocked } from './board';
import type { Instance, Kind } from './instance';

/**
 * Lane time seen from far away, for proofs: which pieces of it each kind of people could use at all, whoever else is booked.
 *
 * A *gap* is a part of a run, between bookings that stand, on one or more lanes that look alike; a *use* says that a kind may start
 * in a gap from one slot to another. Proofs reckon in minutes. A run is *even* when all its slots lie whole grid steps apart:
 * there every booking takes whole steps, and rounding up to the grid loses nothing.
 */
export interface Gap {
	readonly station: number;
	readonly run: number;
	/** Lanes as numbered in bookings. */
	readonly lanes: readonly number[];
	readonly isEven: boolean;
	/** True where a booking stands in the same run of the lane: its session is in use in any plan. */
	readonly isInUse: boolean;
}

export interface Use {
	readonly gap: number;
	/** First and last slot of an unbroken interval of starts. */
	readonly lo: number;
	readonly hi: number;
}

export class ProofSpace {
	readonly instance: Instance;
	readonly gaps: readonly Gap[];
	/** By kind, in the order of gaps. */
	readonly uses: readonly (readonly Use[])[];
	readonly gridMinutes: number;

	constructor(instance: Instance) {
		this.instance = instance;
		this.gridMinutes = instance.model.rollout.enrollment.gridMinutes;
		const board = new Board(instance);
		const gaps: (Gap & { from: number; to: number })[] = [];
		instance.lattices.forEach((lattice, station) => {
			const groups = laneGroups(board, station);
			lattice.runs.forEach((_, run) => {
				const isEven = this.#isEven(station, run);
				for (const lanes of groups) {
					for (const [from, to] of openSlots(board, lanes[0] as number, run)) {
						const numbers = lanes.map((lane) => (board.lanes[lane] as Lane).number);
						const isInUse = lanes.length === 1 && standsIn(instance, station, run, numbers[0] as number);
						gaps.push({ station, run, lanes: numbers, isEven, isInUse, from, to });
					}
				}
			});
		});
		this.gaps = gaps;
		this.uses = instance.kinds.map((kind) => gaps.flatMap((gap, index) => usesOf(board, kind, gap, index)));
	}

	#isEven(station: number, run: number): boolean {
		const lattice = this.instance.lattices[station] as Instance['lattices'][number];
		const first = lattice.runFirst[run] as number;
		for (let slot = first + 1; slot < (lattice.runFirst[run + 1] as number); slot++) {
			const apart = (lattice.at[slot] as number) - (lattice.at[first] as number);
			if (apart % (this.gridMinutes * 60) !== 0) return false;
		}
		return true;
	}

	/** Minutes that one of a kind takes at a station, turnover included, rounded up to the grid where `isRounded`. */
	takenAt(kind: Kind, station: number, isRounded: boolean): number {
		const taken = kind.minutes + (this.instance.lattices[station]?.ready.station.turnoverMinutes ?? 0);
		return isRounded ? Math.ceil(taken / this.gridMinutes) * this.gridMinutes : taken;
	}

	/** The least minutes that one of a kind takes anywhere it can go. */
	leastTaken(kindIndex: number, isRounded: boolean): number {
		const kind = this.instance.kinds[kindIndex] as Kind;
		let least = Infinity;
		for (const { gap } of this.uses[kindIndex] as readonly Use[]) {
			least = Math.min(least, this.takenAt(kind, (this.gaps[gap] as Gap).station, isRounded));
		}
		return least === Infinity ? kind.minutes : least;
	}

	instantOf(gap: Gap, slot: number): number {
		return this.instance.lattices[gap.station]?.at[slot] ?? 0;
	}
}

function standsIn({ standing, lattices }: Instance, station: number, run: number, lane: number): boolean {
	const span = lattices[station]?.runs[run];
	return standing.some(
		(one) => span && one.station === station && one.lane === lane && span.from <= one.from && one.to <= span.to
	);
}

/** Lanes of a station on which nothing stands form one group, each other lane one of its own. Places in `board.lanes`. */
function laneGroups(board: Board, station: number): number[][] {
	const plain: number[] = [];
	const groups: number[][] = [];
	for (let lane = board.laneFirst[station] as number; lane < (board.laneFirst[station + 1] as number); lane++) {
		const { base } = board.lanes[lane] as Lane;
		const length = board.instance.lattices[station]?.at.length ?? 0;
		const hasStanding = board.cells.subarray(base, base + length).includes(blocked);
		if (hasStanding) groups.push([lane]);
		else plain.push(lane);
	}
	if (plain.length > 0) groups.unshift(plain);
	return groups;
}

/** The open parts of a run of a lane: first slot, and the slot by which bookings must have left. */
function openSlots(board: Board, laneIndex: number, run: number): [number, number][] {
	const lane = board.lanes[laneIndex] as Lane;
	const lattice = board.instance.lattices[lane.station] as Instance['lattices'][number];
	const parts: [number, number][] = [];
	const end = lattice.runFirst[run + 1] as number;
	for (let slot = lattice.runFirst[run] as number; slot < end; slot++) {
		if (board.cells[lane.base + slot] === blocked) continue;
		const from = slot;
		while (slot < end && board.cells[lane.base + slot] !== blocked) slot++;
		let to = slot;
		// The turnover of the last one may reach into a run that touches.
		if (slot === end) {
			while (to < lattice.at.length && to < end + board.longest && board.cells[lane.base + to] !== blocked) to++;
		}
		parts.push([from, to]);
	}
	return parts;
}

function usesOf(board: Board, kind: Kind, gap: Gap & { from: number; to: number }, index: number): Use[] {
	const window = kind.windows[gap.station];
	if (!window) return [];
	const next = board.nextOf(kind, gap.station);
	const uses: Use[] = [];
	for (let at = window.first[gap.run] as number; at < (window.first[gap.run + 1] as number); at++) {
		const lo = Math.max(window.lo[at] as number, gap.from);
		let hi = Math.min(window.hi[at] as number, gap.to - 1);
		while (hi >= lo && (next[hi] as number) > gap.to) hi--;
		if (lo <= hi) uses.push({ gap: index, lo, hi });
	}
	return uses;
}
