import type { Board, Lane } from './board';
import type { ProofSpace } from './proof-space';
import { type GapRoom, type Group, type SessionRoom, sessionRoom } from './session-room';

/**
 * Sessions to begin with: few that together have room for everybody.
 *
 * The idea: again and again the session is taken that can be filled best with the people still left, where people with few
 * chances count for more and fill it first. What a session can be worth only falls as people are given away, so a worth
 * reckoned earlier still bounds it, and few are reckoned anew each time. Cost: sessions taken times the people who could use one.
 * @source V. Chvátal, A greedy heuristic for the set-covering problem (1979); M. Minoux, Accelerated greedy algorithms (1978)
 */
export function chooseSessions(board: Board, space: ProofSpace): Uint8Array {
	const usable = new Uint8Array(board.unitLane.length);
	const room = sessionRoom(space);
	const chooser = new Chooser(room);
	room.gaps.forEach(({ cost }, gap) => {
		if (cost === 0) chooser.take(gap);
	});
	const taken = room.gaps.map(({ cost }): number => (cost === 0 ? 1 : 0));
	for (let gap = chooser.best(); gap >= 0; gap = chooser.best()) {
		chooser.take(gap);
		taken[gap] = (taken[gap] as number) + 1;
	}
	space.gaps.forEach(({ station, run, lanes }, gap) => {
		for (const number of lanes.slice(0, taken[gap])) {
			const lane = board.lanes.find((one): one is Lane => one.station === station && one.number === number);
			if (lane) usable[lane.units + run] = 1;
		}
	});
	return usable;
}

class Chooser {
	readonly #gaps: readonly GapRoom[];
	/** Who could use a gap, the scarcest first: group and interval. */
	readonly #users: readonly (readonly User[])[];
	/** What a step of each group counts. */
	readonly #weights: readonly number[];
	readonly #left: number[];
	readonly #lanesLeft: number[];
	/** A bound of what each gap is worth now. */
	readonly #worths: number[];

	constructor({ groups, gaps }: SessionRoom) {
		this.#gaps = gaps;
		this.#left = groups.map(({ people }) => people);
		this.#lanesLeft = gaps.map(({ lanes }) => lanes);
		const options = groups.map(({ parts }) =>
			parts.reduce((sum, part) => part.gaps.reduce((all, gap) => all + (gaps[gap] as GapRoom).lanes, sum), 0)
		);
		this.#weights = groups.map((group, index) => {
			const largest = group.parts.reduce(
				(best, part) => part.gaps.reduce((most, gap) => Math.max(most, (gaps[gap] as GapRoom).whole), best),
				1
			);
			return (1 + 4 / (1 + (options[index] as number))) / largest;
		});
		const users: User[][] = gaps.map(() => []);
		const scarcest = [...groups.keys()].sort((a, b) => (options[a] as number) - (options[b] as number) || a - b);
		for (const group of scarcest) {
			for (const { gaps: own, begins, ends, steps } of (groups[group] as Group).parts) {
				own.forEach((gap, at) =>
					users[gap]?.push({ group, steps, begin: begins[at] as number, end: ends[at] as number })
				);
			}
		}
		this.#users = users;
		this.#worths = gaps.map(({ cost }, gap) => (cost === 0 ? 0 : this.#fill(gap, false)));
	}

	/** The gap whose next lane is worth most; -1 when nobody is left who could use one. */
	best(): number {
		for (;;) {
			let best = -1;
			for (let gap = 0; gap < this.#worths.length; gap++) {
				if (this.#lanesLeft[gap] === 0 || this.#worths[gap] === 0) continue;
				if (best < 0 || (this.#worths[gap] as number) > (this.#worths[best] as number)) best = gap;
			}
			if (best < 0) return -1;
			const worth = this.#fill(best, false);
			const isStillBest = worth >= (this.#worths[best] as number) - 1e-12;
			this.#worths[best] = worth;
			if (isStillBest && worth > 0) return best;
		}
	}

	/** Gives a lane of a gap to the people who fill it. */
	take(gap: number): void {
		this.#fill(gap, true);
		this.#lanesLeft[gap] = (this.#lanesLeft[gap] as number) - 1;
	}

	#fill(gap: number, isReal: boolean): number {
		const { capacity, ends, whole } = this.#gaps[gap] as GapRoom;
		const load = new Float64Array(capacity.length);
		let rest = whole;
		let worth = 0;
		for (const { group, steps, begin, end } of this.#users[gap] as readonly User[]) {
			const count = this.#left[group] as number;
			if (count === 0 || steps > rest) continue;
			let room = rest;
			for (let b = 0; b <= begin; b++) {
				for (let e = end; e < ends; e++) {
					room = Math.min(room, (capacity[b * ends + e] as number) - (load[b * ends + e] as number));
				}
			}
			const people = Math.min(count, steps > 0 ? Math.floor(room / steps + 1e-9) : count);
			if (people <= 0) continue;
			const amount = people * steps;
			for (let b = 0; b <= begin; b++) {
				for (let e = end; e < ends; e++) load[b * ends + e] = (load[b * ends + e] as number) + amount;
			}
			rest -= amount;
			worth += Math.max(amount, 1e-6) * (this.#weights[group] as number);
			if (isReal) this.#left[group] = count - people;
			if (rest <= 0) break;
		}
		return worth;
	}
}

interface User {
	readonly group: number;
	/** Grid steps that one takes there. */
	readonly steps: number;
	readonly begin: number;
	readonly end: number;
}
