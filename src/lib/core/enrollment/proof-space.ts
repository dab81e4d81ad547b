import { Board, type Lane, blocked } from './board';
import type { Instance, Kind } from './instance';
import type { Window } from './windows';

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

/** A gap, with the slot at which it begins and the one by which bookings must have left. */
interface Opening extends Gap {
	readonly from: number;
	readonly to: number;
}

export class ProofSpace {
	readonly instance: Instance;
	readonly gaps: readonly Gap[];
	readonly gridMinutes: number;
	readonly #openings: readonly Opening[];
	/** Places in `gaps`: those of station s begin at gapFirst[s]. */
	readonly #gapFirst: readonly number[];
	readonly #usesByWindow = new Map<Window, readonly Use[]>();

	constructor(instance: Instance) {
		this.instance = instance;
		this.gridMinutes = instance.model.rollout.enrollment.gridMinutes;
		const board = new Board(instance);
		const gaps: Opening[] = [];
		const gapFirst: number[] = [];
		instance.lattices.forEach((lattice, station) => {
			gapFirst.push(gaps.length);
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
		this.#openings = gaps;
		this.#gapFirst = [...gapFirst, gaps.length];
	}

	/** Where somebody of a kind may start at a station, in the order of gaps; empty where nowhere. Shared by kinds of one window. */
	usesAt(kind: Kind, station: number): readonly Use[] {
		const window = kind.windows[station];
		if (!window) return [];
		let uses = this.#usesByWindow.get(window);
		if (!uses) {
			const next = (this.instance.next[station] as readonly Int32Array[])[kind.duration] as Int32Array;
			const found: Use[] = [];
			const end = this.#gapFirst[station + 1] as number;
			for (let gap = this.#gapFirst[station] as number; gap < end; gap++) {
				pushUses(next, window, this.#openings[gap] as Opening, gap, found);
			}
			this.#usesByWindow.set(window, (uses = found));
		}
		return uses;
	}

	/** Everywhere that somebody of a kind may start, in the order of gaps. */
	usesOf(kindIndex: number): readonly Use[] {
		const kind = this.instance.kinds[kindIndex] as Kind;
		return kind.windows.flatMap((_, station) => this.usesAt(kind, station));
	}

	/** True when somebody of a kind may start anywhere. */
	isUsable(kindIndex: number): boolean {
		const kind = this.instance.kinds[kindIndex] as Kind;
		return kind.windows.some((_, station) => this.usesAt(kind, station).length > 0);
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
		kind.windows.forEach((_, station) => {
			if (this.usesAt(kind, station).length > 0) least = Math.min(least, this.takenAt(kind, station, isRounded));
		});
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

function pushUses(next: Int32Array, window: Window, gap: Opening, index: number, uses: Use[]): void {
	for (let at = window.first[gap.run] as number; at < (window.first[gap.run + 1] as number); at++) {
		const lo = Math.max(window.lo[at] as number, gap.from);
		let hi = Math.min(window.hi[at] as number, gap.to - 1);
		while (hi >= lo && (next[hi] as number) > gap.to) hi--;
		if (lo <= hi) uses.push({ gap: index, lo, hi });
	}
}
