import type { Board } from './board';
import { type Lane, free } from './board';
import type { Instance, Kind } from './instance';
import type { Window } from './windows';

/**
 * The best way to book any set of a few people in one piece of one lane, by itself.
 *
 * A *bin* is a run of a lane, or runs so close that a turnover reaches from one into the next. The best order of a set is found from
 * those of its subsets: whoever comes last starts as early as then possible. Kept is, for each set, every pair of cost and end that
 * no other beats in both. A cost is one number that holds sessions, minutes walked and the sum of starts, in this order.
 * Cost: sets that fit in the bin, times people.
 * @source M. Held and R. M. Karp, A dynamic programming approach to sequencing problems (1962)
 */
export interface Bin {
	readonly lane: number;
	readonly runs: readonly number[];
	/** Bins that look alike to everybody, the earlier no worse than the later. */
	readonly likeness: string;
}

/** One way to book a set in a bin. */
export interface BinPlan {
	readonly cost: number;
	/** Slot at which the lane is free again. */
	readonly end: number;
	/** Sessions of the bin that hold a booking: bit i, the i-th of its stretches. */
	readonly sessions: number;
	/** Who comes last, in which slot, after which other way. */
	readonly person: number;
	readonly slot: number;
	readonly before: BinPlan | undefined;
}

/** How sessions, walks and starts go into one number. */
export interface CostScale {
	readonly session: number;
	readonly walkMinute: number;
	/** Instant from which starts are counted in minutes. */
	readonly from: number;
}

/** The scale for some people; undefined where the numbers would not fit, or starts are no whole minutes. */
export function costScale(instance: Instance, people: number): CostScale | undefined {
	const slots = instance.lattices.flatMap(({ at }) => [...at]);
	const from = slots.reduce((least, at) => Math.min(least, at), Infinity);
	const to = slots.reduce((most, at) => Math.max(most, at), -Infinity);
	const walks = instance.kinds.flatMap((kind) => kind.walks.filter((_, station) => kind.windows[station]));
	if (slots.some((at) => (at - from) % 60 !== 0) || walks.some((walk) => walk % 60 !== 0)) return undefined;
	const walkMinute = people * ((to - from) / 60) + 1;
	const farthest = walks.reduce((most, walk) => Math.max(most, walk), 0) / 60;
	const session = walkMinute * (people * farthest + 1);
	return session * (people + 1) < Number.MAX_SAFE_INTEGER ? { session, walkMinute, from } : undefined;
}

/** The bins of a board in the order of time; undefined where one has more stretches than there are bits for. */
export function binsOf(board: Board, people: readonly number[]): Bin[] | undefined {
	const { instance } = board;
	const bins: Bin[] = [];
	for (const [index, lane] of board.lanes.entries()) {
		const lattice = instance.lattices[lane.station] as Instance['lattices'][number];
		const turnover = lattice.ready.station.turnoverMinutes * 60;
		let runs: number[] = [];
		lattice.runs.forEach((run, number) => {
			runs.push(number);
			const next = lattice.runs[number + 1];
			if (next && next.from < run.to + turnover) return;
			if (people.some((person) => runs.some((one) => isOpenTo(board.kindOf(person), lane.station, one)))) {
				bins.push({ lane: index, runs, likeness: likenessOf(board, index, runs, people) });
			}
			runs = [];
		});
	}
	if (bins.some((bin) => stretchesIn(board, bin) > mostStretches)) return undefined;
	const startOf = ({ lane, runs }: Bin): number => {
		const { station } = board.lanes[lane] as Lane;
		return instance.lattices[station]?.runs[runs[0] as number]?.from ?? 0;
	};
	return bins.sort((a, b) => startOf(a) - startOf(b) || a.lane - b.lane);
}

/** As many as there are bits for. */
const mostStretches = 30;

function stretchesIn({ lanes, instance }: Board, { lane, runs }: Bin): number {
	const { station } = lanes[lane] as Lane;
	return runs.reduce((sum, run) => sum + (instance.lattices[station]?.runs[run]?.stretches.length ?? 0), 0);
}

function isOpenTo(kind: Kind, station: number, run: number): boolean {
	const window = kind.windows[station];
	return window !== null && window !== undefined && window.first[run] !== window.first[run + 1];
}

/** Everything about a bin but when it is: its shape, what stands in it, and who may start where. */
function likenessOf(board: Board, laneIndex: number, runs: readonly number[], people: readonly number[]): string {
	const { station, base } = board.lanes[laneIndex] as Lane;
	const lattice = board.instance.lattices[station] as Instance['lattices'][number];
	const first = lattice.runFirst[runs[0] as number] as number;
	const last = lattice.runFirst[(runs.at(-1) as number) + 1] as number;
	const start = lattice.at[first] as number;
	const shape = [...lattice.at.subarray(first, last)].map((at, index) =>
		board.cells[base + first + index] === free ? at - start : -1
	);
	const spill = board.cells[base + last] === free ? 1 : 0;
	const windows = people.map((person) => {
		const kind = board.kindOf(person);
		const window = kind.windows[station];
		if (!window) return '-';
		const from = window.first[runs[0] as number] as number;
		const to = window.first[(runs.at(-1) as number) + 1] as number;
		const intervals = [...window.lo.subarray(from, to)].map(
			(lo, at) => `${lo - first}..${(window.hi[from + at] as number) - first}`
		);
		return `${kind.walks[station]} ${intervals.join(' ')}`;
	});
	const stretches = runs
		.flatMap((run) => lattice.runs[run]?.stretches ?? [])
		.sort((a, b) => a.place - b.place)
		.map(({ from, to }) => [from - start, to - start]);
	return JSON.stringify([
		station,
		stretches,
		runs.map((run) => (lattice.runFirst[run + 1] as number) - first),
		shape,
		spill,
		windows
	]);
}

/** True when a person may start in a slot of a station, beside what their window says. */
export type Admits = (person: number, station: number, slot: number) => boolean;

/**
 * The best ways to book sets of people in a bin, by set (bit i: the i-th of `people`). Sets that do not fit are left out, the
 * empty one too.
 */
export function binPlans(
	board: Board,
	bin: Bin,
	people: readonly number[],
	scale: CostScale,
	admits: Admits
): Map<number, BinPlan[]> {
	const choices = people.map((person) => choicesOf(board, bin, person, scale, admits));
	const plans = new Map<number, BinPlan[]>([
		[0, [{ cost: 0, end: -1, sessions: 0, person: -1, slot: -1, before: undefined }]]
	]);
	let sets = [0];
	// Set by set in the order of size, so that all ways to a set are known before it is left.
	while (sets.length > 0) {
		const larger = new Set<number>();
		for (const set of sets) {
			for (const before of plans.get(set) as BinPlan[]) {
				for (let person = 0; person < people.length; person++) {
					if ((set >>> person) & 1) continue;
					const joint = set | (1 << person);
					for (const plan of waysAfter(before, person, choices[person] as readonly Choice[])) {
						keepBest(plans, joint, plan);
						larger.add(joint);
					}
				}
			}
		}
		sets = [...larger];
	}
	plans.delete(0);
	return plans;
}

/** A slot in which somebody could start: what it costs, a new session included, and when the lane is free again. */
interface Choice {
	readonly slot: number;
	readonly end: number;
	/** The session that it belongs to, as the one bit of it. */
	readonly session: number;
	readonly cost: number;
	/** Added to the cost when nobody else of the plan is in the session. */
	readonly opening: number;
}

/** Slots of a bin in which a person may start beside bookings that stand, ascending. */
function choicesOf(board: Board, bin: Bin, person: number, scale: CostScale, admits: Admits): Choice[] {
	const lane = board.lanes[bin.lane] as Lane;
	const { station, base } = lane;
	const kind = board.kindOf(person);
	const window = kind.windows[station] as Window | null;
	if (!window) return [];
	const next = board.nextOf(kind, station);
	const lattice = board.instance.lattices[station] as Instance['lattices'][number];
	const walk = ((kind.walks[station] as number) / 60) * scale.walkMinute;
	const choices: Choice[] = [];
	const first = lane.sessions + firstStretch(lattice, bin);
	const bitOf = (session: number): number => 1 << (session - first);
	for (const run of bin.runs) {
		for (let at = window.first[run] as number; at < (window.first[run + 1] as number); at++) {
			for (let slot = window.lo[at] as number; slot <= (window.hi[at] as number); slot++) {
				let cell = base + slot;
				const end = next[slot] as number;
				while (cell < base + end && board.cells[cell] === free) cell++;
				if (cell < base + end || !board.tally.hasRoom(kind, station, slot) || !admits(person, station, slot)) continue;
				const instant = board.instance.lattices[station]?.at[slot] as number;
				const session = board.sessionAt(kind, lane, base + slot);
				const isInUse = (board.bookedIn[session] as number) > 0;
				choices.push({
					slot,
					end,
					session: bitOf(session),
					cost: walk + (instant - scale.from) / 60,
					opening: isInUse ? 0 : scale.session
				});
			}
		}
	}
	return choices;
}

/** Place of a bin's first stretch among those of its station; those of a bin stand side by side. */
function firstStretch({ ready, runs }: Instance['lattices'][number], bin: Bin): number {
	const places = (runs[bin.runs[0] as number]?.stretches ?? []).map((stretch) => ready.stretches.indexOf(stretch));
	return places.reduce((least, place) => Math.min(least, place), Infinity);
}

/** The ways to book one more after others: as early as possible in each session. */
function waysAfter(before: BinPlan, person: number, choices: readonly Choice[]): BinPlan[] {
	let [low, high] = [0, choices.length];
	while (low < high) {
		const middle = (low + high) >>> 1;
		if ((choices[middle] as Choice).slot >= before.end) high = middle;
		else low = middle + 1;
	}
	const ways: BinPlan[] = [];
	let seen = 0;
	for (let at = low; at < choices.length; at++) {
		const choice = choices[at] as Choice;
		if ((seen & choice.session) !== 0) continue;
		seen |= choice.session;
		const cost = before.cost + choice.cost + ((before.sessions & choice.session) === 0 ? choice.opening : 0);
		const sessions = before.sessions | choice.session;
		ways.push({ cost, end: choice.end, sessions, person, slot: choice.slot, before });
	}
	return ways;
}

/** Adds a way to a set unless another is as good; takes out those that it beats. */
function keepBest(plans: Map<number, BinPlan[]>, set: number, plan: BinPlan): void {
	const known = plans.get(set);
	if (!known) {
		plans.set(set, [plan]);
		return;
	}
	const beats = (a: BinPlan, b: BinPlan): boolean =>
		a.cost <= b.cost && a.end <= b.end && (a.sessions & b.sessions) === b.sessions;
	if (known.some((other) => beats(other, plan))) return;
	plans.set(set, [...known.filter((other) => !beats(plan, other)), plan]);
}
