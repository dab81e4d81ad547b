import { type Span, type SpanSet, spanSetOf } from '../calendar/spans';
import type { Instance, Kind } from './instance';

const tickSeconds = 60;

/**
 * How many of each limited department are away, minute by minute. Only minutes near an open station are held, side by side; an
 * absence for a booking never crosses a gap between them.
 */
export class AwayTally {
	readonly #instance: Instance;
	/** Away in each minute, one row a limit. */
	readonly #away: Int32Array;
	readonly #ticks: number;
	/** Minute of each slot, by station. */
	readonly #tickOfSlot: readonly Int32Array[];

	constructor(instance: Instance) {
		this.#instance = instance;
		const minutes = new Minutes(nearStations(instance));
		this.#ticks = minutes.count;
		this.#away = new Int32Array(minutes.count * instance.limits.length);
		this.#tickOfSlot = instance.lattices.map(({ at }) =>
			minutes.count === 0 ? new Int32Array(0) : Int32Array.from(at, (instant) => minutes.at(instant))
		);
		for (const { from, to, walk, limit } of instance.standing) {
			if (limit < 0) continue;
			for (const [start, end] of minutes.within({ from: from - walk, to: to + walk })) {
				for (let tick = start; tick < end; tick++) this.#count(limit, tick, 1);
			}
		}
	}

	#count(limit: number, tick: number, change: number): void {
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
		for (let at = tick - walk; at < tick + kind.minutes + walk; at++) this.#count(kind.limit, at, change);
	}
}

/** The time in which anybody of a limited department could be away for a booking. */
function nearStations({ kinds, lattices, limits }: Instance): SpanSet {
	if (limits.length === 0) return [];
	return spanSetOf(
		lattices.flatMap(({ runs }, station) => {
			let farthest = 0;
			for (const kind of kinds) {
				const walk = kind.walks[station] as number;
				if (walk > farthest && kind.limit >= 0 && kind.windows[station]) farthest = walk;
			}
			const room = farthest + 2 * tickSeconds;
			return runs.map((run): Span => ({ from: run.from - room, to: run.to + room }));
		})
	);
}

/** Numbers the minutes of spans, one after the other. */
class Minutes {
	readonly count: number;
	readonly #spans: SpanSet;
	readonly #first: number[] = [];

	constructor(spans: SpanSet) {
		let count = 0;
		for (const span of spans) {
			this.#first.push(count);
			count += Math.ceil((span.to - span.from) / tickSeconds) + 1;
		}
		this.#spans = spans;
		this.count = count;
	}

	/** The minute that an instant lies in; it must lie in one of the spans. */
	at(instant: number): number {
		let [low, high] = [0, this.#spans.length - 1];
		while (low < high) {
			const middle = (low + high + 1) >>> 1;
			if ((this.#spans[middle] as Span).from <= instant) low = middle;
			else high = middle - 1;
		}
		return (this.#first[low] as number) + Math.floor((instant - (this.#spans[low] as Span).from) / tickSeconds);
	}

	/** Minutes, from and to, that a span shares with the numbered ones. */
	within({ from, to }: Span): [number, number][] {
		return this.#spans.flatMap((span): [number, number][] => {
			const [start, end] = [Math.max(from, span.from), Math.min(to, span.to)];
			return start < end ? [[this.at(start), this.at(end - 1) + 1]] : [];
		});
	}
}
