import { type EpochDay, dateOf, epochDayFrom } from './local-date';
import { type WallTime, localDateTimeOf } from './local-date-time';
import { type Span, type SpanSet, noSpans, spanSetOf } from './spans';

/**
 * Wall-clock time and instants of one time zone.
 *
 * The idea: in the years asked for, a zone is a short list of segments, each with one offset. They are found once, by
 * asking the platform's time zone data every twelve hours and halving the interval wherever the offset differs; from then on
 * everything is arithmetic. Invariant: segments are sorted, adjacent, and neighbors differ in offset. Our own; checked
 * against Temporal.
 */

/** Seconds since 1970-01-01T00:00:00Z. */
export type Instant = number & { readonly __brand: 'Instant' };

/** Part of the time line in which the offset (seconds east of UTC) does not change. */
export interface Segment extends Span {
	readonly offset: number;
}

/** A clock change: the instant, and the offsets in seconds before and after. */
export interface ClockChange {
	readonly at: Instant;
	readonly before: number;
	readonly after: number;
}

/** The instants of one date, or the part of them before or after a clock change that turned a date back. */
export interface DateSpan extends Span {
	readonly day: EpochDay;
}

const daySeconds = 86400;
const stepSeconds = daySeconds / 2;

export class Zone {
	readonly name: string;
	readonly #segments: readonly Segment[];
	readonly #datesLeftOut = new Set<number>();
	readonly #turnedBackByDay = new Map<number, Span>();

	/**
	 * A zone for wall-clock times on the dates `from` to `until` and a few days around them. Beyond, the first and the
	 * last offset go on; throws for a name that the platform does not know.
	 */
	constructor(name: string, from: EpochDay, until: EpochDay) {
		this.name = name;
		this.#segments = segmentsOf(name, (from - 4) * daySeconds, (until + 5) * daySeconds);
		for (const { at, before, after } of this.clockChanges) {
			const [shownBefore, shownAfter] = [at + before, at + after];
			for (let day = Math.ceil(shownBefore / daySeconds); (day + 1) * daySeconds <= shownAfter; day++) {
				this.#datesLeftOut.add(day);
			}
			const day = Math.floor(shownBefore / daySeconds);
			const midnight = day * daySeconds;
			if (shownAfter < midnight && midnight < shownBefore) {
				this.#turnedBackByDay.set(day, { from: at, to: at + midnight - shownAfter });
			}
		}
	}

	/** The clock changes in the years that this zone was made for, in order. */
	get clockChanges(): readonly ClockChange[] {
		return this.#segments.slice(1).map((segment, index) => ({
			at: segment.from as Instant,
			before: (this.#segments[index] as Segment).offset,
			after: segment.offset
		}));
	}

	/** The offset at an instant, in seconds east of UTC. */
	offsetAt(at: Instant): number {
		return this.#segmentAt(at).offset;
	}

	/**
	 * The instant of a wall-clock time; minutes from 1440 on are those of later dates. One that a clock change skips is read
	 * with the offset before the change, one that it repeats is the first of the two.
	 * @source RFC 5545, section 3.3.5
	 * @example 02:30 on 2027-03-14 in America/Chicago is 03:30 CDT
	 */
	instantOf({ day, minute }: WallTime): Instant {
		const local = day * daySeconds + minute * 60;
		return (local - this.#offsetForLocal(local).offset) as Instant;
	}

	/**
	 * Midnight of a date: its first instant, also where a clock change skips 00:00; of a date that the zone leaves out,
	 * the first instant after it.
	 */
	midnightOf(day: EpochDay): Instant {
		const local = day * daySeconds;
		for (const segment of this.#segments) {
			if (segment.to + segment.offset > local) return Math.max(segment.from, local - segment.offset) as Instant;
		}
		throw new RangeError(`${dateOf(day)} lies outside of the years of this zone`);
	}

	/** The instants whose local date is one of `from` to `until`: one span, but for clock changes that turn a date back. */
	spansOfDates(from: EpochDay, until: EpochDay): SpanSet {
		const [start, end] = [from * daySeconds, (until + 1) * daySeconds];
		return spanSetOf(
			this.#segments.map((segment) => ({
				from: Math.max(segment.from, start - segment.offset),
				to: Math.min(segment.to, end - segment.offset)
			}))
		);
	}

	/** The local dates that a span passes through, each with its instants; a clock turned back past midnight shows one twice. */
	datesIn({ from, to }: Span): DateSpan[] {
		const dates: DateSpan[] = [];
		for (const segment of this.#segments) {
			const end = Math.min(segment.to, to);
			for (let at = Math.max(segment.from, from); at < end;) {
				const day = Math.floor((at + segment.offset) / daySeconds) as EpochDay;
				const next = Math.min(end, (day + 1) * daySeconds - segment.offset);
				const last = dates.at(-1);
				if (last?.day === day) dates[dates.length - 1] = { day, from: last.from, to: next };
				else dates.push({ day, from: at, to: next });
				at = next;
			}
		}
		return dates;
	}

	/** True for a date that exists in the zone: Apia had no 2011-12-30. */
	hasDate(day: EpochDay): boolean {
		return !this.#datesLeftOut.has(day);
	}

	/**
	 * The instants, after the midnight of a date, at which a clock that was turned back shows the date before once more;
	 * nearly always none.
	 * @example St. John's turned 00:01 on 2010-11-07 back to 23:01 on 2010-11-06
	 */
	turnedBackOn(day: EpochDay): SpanSet {
		const span = this.#turnedBackByDay.get(day);
		return span ? [span] : noSpans;
	}

	/** The wall-clock time at an instant, to the minute below. */
	wallTimeAt(at: Instant): WallTime {
		const local = at + this.#segmentAt(at).offset;
		const day = Math.floor(local / daySeconds);
		return { day: day as EpochDay, minute: Math.floor((local - day * daySeconds) / 60) };
	}

	/** The local date at an instant. */
	dayAt(at: Instant): EpochDay {
		return this.wallTimeAt(at).day;
	}

	/** An instant as RFC 3339 text with the zone's offset: `2027-01-04T07:00:00-06:00`. */
	textOf(at: Instant): string {
		const offset = this.offsetAt(at);
		const local = at + offset;
		const day = Math.floor(local / daySeconds);
		const second = (local - day * daySeconds) % 60;
		const minute = Math.floor((local - day * daySeconds) / 60);
		const wall = localDateTimeOf({ day: day as EpochDay, minute });
		return `${wall}:${String(second).padStart(2, '0')}${offsetText(offset)}`;
	}

	/** What a clock change does to a wall-clock time: it does not exist, exists twice, or neither. */
	fateOf({ day, minute }: WallTime): 'skipped' | 'repeated' | 'once' {
		return this.#offsetForLocal(day * daySeconds + minute * 60).fate;
	}

	/** Of the segments whose wall clock shows `local` the first decides; where none does, the one before the change. */
	#offsetForLocal(local: number): { offset: number; fate: 'skipped' | 'repeated' | 'once' } {
		const guess = this.#segmentAt(local);
		// Far from any clock change the segment at hand is the only one: nearly every call ends here.
		if (guess.from + 2 * daySeconds < local && local < guess.to - 2 * daySeconds) {
			return { offset: guess.offset, fate: 'once' };
		}
		const near = this.#segments.filter(
			(segment) => segment.to > local - 2 * daySeconds && segment.from < local + 2 * daySeconds
		);
		const holding = near.filter(
			(segment) => segment.from + segment.offset <= local && local < segment.to + segment.offset
		);
		const first = holding[0];
		if (first) return { offset: first.offset, fate: holding.length > 1 ? 'repeated' : 'once' };
		const before = near.filter((segment) => segment.to + segment.offset <= local).at(-1);
		if (!before) throw new RangeError('a wall-clock time outside of the years of this zone');
		return { offset: before.offset, fate: 'skipped' };
	}

	#segmentAt(at: number): Segment {
		let low = 0;
		let high = this.#segments.length - 1;
		while (low < high) {
			const middle = (low + high + 1) >>> 1;
			if ((this.#segments[middle] as Segment).from <= at) low = middle;
			else high = middle - 1;
		}
		return this.#segments[low] as Segment;
	}
}

function segmentsOf(name: string, from: number, to: number): Segment[] {
	const offsetAt = offsetReader(name);
	const segments: Segment[] = [];
	let start = -Infinity;
	let offset = offsetAt(from);
	for (let at = from; at < to; at += stepSeconds) {
		let next = offsetAt(at + stepSeconds);
		let low = at;
		while (next !== offset) {
			const change = firstChange(offsetAt, low, at + stepSeconds, offset);
			segments.push({ from: start, to: change, offset });
			start = change;
			offset = offsetAt(change);
			low = change;
			next = offsetAt(at + stepSeconds);
		}
	}
	segments.push({ from: start, to: Infinity, offset });
	return segments;
}

/** The first second in (low, high] whose offset is not `offset`; offsets change on whole seconds. */
function firstChange(offsetAt: (at: number) => number, low: number, high: number, offset: number): number {
	let [same, other] = [low, high];
	while (other - same > 1) {
		const middle = Math.floor((same + other) / 2);
		if (offsetAt(middle) === offset) same = middle;
		else other = middle;
	}
	return other;
}

function offsetReader(name: string): (at: number) => number {
	const format = new Intl.DateTimeFormat('en-US', {
		timeZone: name,
		calendar: 'gregory',
		numberingSystem: 'latn',
		hourCycle: 'h23',
		era: 'short',
		year: 'numeric',
		month: 'numeric',
		day: 'numeric',
		hour: 'numeric',
		minute: 'numeric',
		second: 'numeric'
	});
	const pattern = /^(\d+)\/(\d+)\/(\d+) (A|AD|B|BC), (\d+):(\d+):(\d+)$/;
	return (at) => {
		const text = format.format(at * 1000);
		const match = pattern.exec(text);
		if (!match) throw new Error(`the platform wrote an unexpected date: ${text}`);
		const [month, day, year] = [Number(match[1]), Number(match[2]), Number(match[3])];
		const days = epochDayFrom((match[4] ?? '').startsWith('B') ? 1 - year : year, month, day);
		return days * daySeconds + Number(match[5]) * 3600 + Number(match[6]) * 60 + Number(match[7]) - at;
	};
}

function offsetText(seconds: number): string {
	const minutes = Math.round(Math.abs(seconds) / 60);
	const hours = String(Math.floor(minutes / 60)).padStart(2, '0');
	return `${seconds < 0 ? '-' : '+'}${hours}:${String(minutes % 60).padStart(2, '0')}`;
}
