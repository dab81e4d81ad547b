import type { Instance } from './instance';
import type { Window } from './windows';

/** The kinds that share a window at a station, and what the window holds in each of its runs. */
interface WindowUsers {
	readonly window: Window;
	readonly kinds: number[];
	/** Slots in each of `window.runs`. */
	readonly sizes: Int32Array;
}

/**
 * Who should come first in a run: the kinds that may come there, the one with the fewest chances left behind it first.
 *
 * A kind's chances are the slots of its windows in runs that begin later, each run weighted by how little it is asked for. They are
 * kept for all kinds at once, and fall as the runs pass by, so runs must be asked for in the order of their begin. Kinds share
 * windows: what hangs on a window alone is reckoned once. Cost in all: for each kind the runs of its windows.
 */
export class Urgency {
	readonly #instance: Instance;
	/** By station: windows that differ, and for each run those that reach into it, as places in pairs with the run's place in them. */
	readonly #users: readonly (readonly WindowUsers[])[];
	readonly #byRun: readonly (readonly (readonly number[])[])[];
	/** What a slot of a run counts, by station and run. */
	readonly #factors: readonly Float64Array[];
	readonly #later: Float64Array;
	/** Room for one answer. */
	readonly #kinds: Int32Array;
	readonly #left: Float64Array;
	/** Station and run by begin, in pairs; those before `#passed` have passed. */
	readonly #runs: readonly (readonly [station: number, run: number])[];
	#passed = 0;

	constructor(instance: Instance) {
		this.#instance = instance;
		this.#users = windowUsers(instance);
		this.#byRun = instance.lattices.map(({ runs }, station) => {
			const byRun: number[][] = runs.map(() => []);
			(this.#users[station] ?? []).forEach(({ window }, place) => {
				window.runs.forEach((run, at) => byRun[run]?.push(place, at));
			});
			return byRun;
		});
		this.#factors = this.#weigh();
		this.#later = new Float64Array(instance.kinds.length);
		this.#kinds = new Int32Array(instance.kinds.length);
		this.#left = new Float64Array(instance.kinds.length);
		const runs = instance.lattices.flatMap(({ runs: own }, station) =>
			own.map((_, run): [number, number] => [station, run])
		);
		for (const [station, run] of runs) this.#count(station, run, 1);
		this.#runs = runs.sort((a, b) => this.#beginOf(a) - this.#beginOf(b));
	}

	#beginOf([station, run]: readonly [number, number]): number {
		return this.#instance.lattices[station]?.runs[run]?.from ?? 0;
	}

	/** Kinds of whom somebody waits, of those that may come in a run, in their order. */
	kindsIn(station: number, run: number, waiting: readonly (readonly number[])[]): Int32Array {
		const begin = this.#beginOf([station, run]);
		for (; this.#passed < this.#runs.length; this.#passed++) {
			const next = this.#runs[this.#passed] as readonly [number, number];
			if (this.#beginOf(next) > begin) break;
			this.#count(next[0], next[1], -1);
		}
		let count = 0;
		const places = this.#byRun[station]?.[run] ?? [];
		for (let at = 0; at < places.length; at += 2) {
			const { window, kinds: own } = this.#users[station]?.[places[at] as number] as WindowUsers;
			const last = window.hi[(window.first[run + 1] as number) - 1] as number;
			for (const kind of own) {
				if ((waiting[kind] as readonly number[]).length === 0) continue;
				this.#kinds[count] = kind;
				this.#left[count++] = Math.max(0, this.#later[kind] as number) + last;
			}
		}
		return inOrder(this.#kinds.subarray(0, count), this.#left.subarray(0, count));
	}

	/** Counts the slots of a run for everybody who may come there, or no longer. */
	#count(station: number, run: number, sign: 1 | -1): void {
		const later = this.#later;
		const factor = sign * (this.#factors[station]?.[run] ?? 0);
		const places = this.#byRun[station]?.[run] ?? [];
		for (let at = 0; at < places.length; at += 2) {
			const { kinds, sizes } = this.#users[station]?.[places[at] as number] as WindowUsers;
			const slots = factor * (sizes[places[at + 1] as number] as number);
			for (const kind of kinds) later[kind] = (later[kind] as number) + slots;
		}
	}

	/** Lanes by how much of a run is asked for, when everybody spreads evenly over their windows. */
	#weigh(): Float64Array[] {
		const { kinds, lanes, lattices, next } = this.#instance;
		const sizeOf = kinds.map(({ windows }) =>
			windows.reduce((sum, window, station) => sum + (window ? window.size * (lanes[station]?.length ?? 1) : 0), 0)
		);
		return lattices.map(({ runs, runFirst }, station) => {
			const demand = new Float64Array(runs.length);
			for (const { window, kinds: own, sizes } of this.#users[station] ?? []) {
				let asked = 0;
				for (const index of own) {
					const kind = kinds[index] as Instance['kinds'][number];
					asked += (kind.members.length * (next[station]?.[kind.duration]?.[0] ?? 1)) / (sizeOf[index] as number);
				}
				window.runs.forEach((run, at) => {
					const capacity = (runFirst[run + 1] as number) - (runFirst[run] as number);
					demand[run] = (demand[run] as number) + (asked * (sizes[at] as number)) / capacity;
				});
			}
			return demand.map((one) => (lanes[station]?.length ?? 1) / Math.max(one, 0.05));
		});
	}
}

function windowUsers({ kinds, lattices }: Instance): WindowUsers[][] {
	return lattices.map((_, station) => {
		const byWindow = new Map<Window, WindowUsers>();
		kinds.forEach(({ windows }, kind) => {
			const window = windows[station];
			if (!window) return;
			const users = byWindow.get(window);
			if (users) users.kinds.push(kind);
			else byWindow.set(window, { window, kinds: [kind], sizes: window.runs.map((run) => sizeIn(window, run)) });
		});
		return [...byWindow.values()];
	});
}

function sizeIn(window: Window, run: number): number {
	let size = 0;
	for (let index = window.first[run] as number; index < (window.first[run + 1] as number); index++) {
		size += (window.hi[index] as number) - (window.lo[index] as number) + 1;
	}
	return size;
}

/** Kinds by what each has left, to a hair, then by their number. Sorted as plain numbers, which is several times as fast. */
function inOrder(kinds: Int32Array, left: Float64Array): Int32Array {
	let most = 1;
	let last = 0;
	for (let at = 0; at < kinds.length; at++) {
		most = Math.max(most, left[at] as number);
		last = Math.max(last, kinds[at] as number);
	}
	const count = last + 1;
	const scale = Math.min(1e4, Math.floor(2 ** 52 / count) / (most + 1));
	for (let at = 0; at < kinds.length; at++) {
		left[at] = Math.round((left[at] as number) * scale) * count + (kinds[at] as number);
	}
	left.sort();
	const sorted = new Int32Array(kinds.length);
	for (let at = 0; at < kinds.length; at++) sorted[at] = (left[at] as number) % count;
	return sorted;
}
