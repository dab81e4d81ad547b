import type { Span } from '../calendar/spans';
import { spanSetOf } from '../calendar/spans';
import type { Instance, Kind } from './instance';

const tickSeconds = 60;

/**
 * How many of each limited department are away, minute by minute. Only minutes near an open station are held, side by side; an
 * absence never crosses a gap between them.
 */
export class AwayTally {
	readonly #instance: Instance;
	/** Away in each minute, one row a limit. */
	readonly #away: Int16Array;
	readonly #ticks: number;
	/** Minute of each slot, by station. */
	readonly #tickOfSlot: readonly Int32Array[];

	constructor(instance: Instance) {
		this.#instance = instance;
		const farthest = instance.kinds.reduce((most, kind) => Math.max(most, ...kind.walks), 0);
		const near = instance.lattices.flatMap(({ runs }) =>
			runs.map((run): Span => ({ from: run.from - farthest - 60, to: run.to + farthest + 60 }))
		);
		const standing = instance.standing.filter(({ limit }) => limit >= 0);
		for (const { from, to, walk } of standing) near.push({ from: from - walk - 60, to: to + walk + 60 });
		const spans = instance.limits.length > 0 ? spanSetOf(near) : [];
		const first: number[] = [];
		let ticks = 0;
		for (const span of spans) {
			first.push(ticks);
			ticks += Math.ceil((span.to - span.from) / tickSeconds) + 1;
		}
		const tickAt = (at: number): number => {
			let [low, high] = [0, spans.length - 1];
			while (low < high) {
				const middle = (low + high + 1) >>> 1;
				if ((spans[middle] as Span).from <= at) low = middle;
				else high = middle - 1;
			}
			return (first[low] as number) + Math.floor((at - (spans[low] as Span).from) / tickSeconds);
		};
		this.#ticks = ticks;
		this.#away = new Int16Array(ticks * instance.limits.length);
		this.#tickOfSlot = instance.lattices.map(({ at }) =>
			ticks === 0 ? new Int32Array(0) : Int32Array.from(at, tickAt)
		);
		for (const { from, to, walk, limit } of standing) {
			const start = tickAt(from - walk);
			const end = start + Math.ceil((to - from + 2 * walk) / tickSeconds);
			for (let tick = start; tick < end; tick++) this.#add(limit, tick, 1);
		}
	}

	#add(limit: number, tick: number, change: number): void {
		const index = limit * this.#ticks + tick;
		this.#away[index] = (this.#away[index] as number) + change;
	}

	/** True when one more of a kind may be away for a booking in a slot. */
	hasRoom(kind: Kind, station: number, slot: number): boolean {
		if (kind.limit < 0) return true;
		const walk = Math.ceil((kind.walks[station] as number) / tickSeconds);
		const most = (this.#instance.limits[kind.limit] as { maxAway: number }).maxAway;
		const at = kind.limit * this.#ticks + ((this.#tickOfSlot[station] as Int32Array)[slot] as number);
		const end = at + kind.minutes + walk;
		for (let index = at - walk; index < end; index++) if ((this.#away[index] as number) >= most) return false;
		return true;
	}

	/** Counts somebody of a kind away (or back, with -1) for a booking in a slot. */
	add(kind: Kind, station: number, slot: number, change: 1 | -1): void {
		if (kind.limit < 0) return;
		const walk = Math.ceil((kind.walks[station] as number) / tickSeconds);
		const tick = (this.#tickOfSlot[station] as Int32Array)[slot] as number;
		for (let at = tick - walk; at < tick + kind.minutes + walk; at++) this.#add(kind.limit, at, change);
	}
}
