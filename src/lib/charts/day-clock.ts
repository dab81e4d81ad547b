import { type LocalDate, dateOf, epochDayOf } from '$lib/core/calendar/local-date';
import type { Span } from '$lib/core/calendar/spans';
import { clockText } from '$lib/core/calendar/stretch';

/**
 * The clock of one local date, so that a slider can run over its instants and say what the clock on the wall shows. Seconds
 * count from the first instant of the date; a date has 23, 24 or 25 hours, or what else the zone makes of it.
 */
export interface DayClock {
	readonly date: string;
	/** Seconds from the first instant of the date to that of the next. */
	readonly length: number;
	/** The first instant of the date, in seconds since 1970-01-01T00:00:00Z. */
	readonly start: number;
	/** Offsets from UTC in seconds, each from a second of the date on; the first holds long before. */
	readonly offsets: readonly { readonly from: number; readonly offset: number }[];
}

/** What the clock shows. */
export interface Shown {
	readonly date: LocalDate;
	/** `06:05` */
	readonly time: string;
	/** `UTC-05:00` */
	readonly offset: string;
	/** First or second of two moments at which the clock shows the same; null where it shows it once. */
	readonly turn: 'first' | 'second' | null;
}

/** What the clock on the wall shows at a second of a date. */
export function shownAt(clock: DayClock, second: number): Shown {
	const { offset } = offsetAt(clock, second);
	const local = clock.start + second + offset;
	const others = clock.offsets
		.map((other, place) => ({
			at: second + offset - other.offset,
			from: other.from,
			to: clock.offsets[place + 1]?.from
		}))
		.filter(({ at, from, to }, place) => at !== second && (place === 0 || at >= from) && at < (to ?? Infinity));
	const [other] = others;
	return {
		date: dateOf(Math.floor(local / 86400) as Parameters<typeof dateOf>[0]),
		time: clockText(Math.floor((((local % 86400) + 86400) % 86400) / 60)),
		offset: offsetText(offset),
		turn: other === undefined ? null : other.at > second ? 'first' : 'second'
	};
}

/** The same in a few words: `06:05`, `01:30 UTC-06:00 (second time)`, with the date where it is another. */
export function clockWords(clock: DayClock, second: number): string {
	if (second >= clock.length) return '24:00';
	const { date, time, offset, turn } = shownAt(clock, second);
	const day = date === clock.date ? '' : `${date}, `;
	return turn === null ? `${day}${time}` : `${day}${time} ${offset} (${turn} time)`;
}

/** A stretch of the date in words: `05:30–22:30`; `all day` where it is all of it. */
export function stretchWords(clock: DayClock, { from, to }: Span): string {
	return from <= 0 && to >= clock.length ? 'all day' : `${clockWords(clock, from)}–${clockWords(clock, to)}`;
}

/**
 * The second of a date at which its clock shows a minute of the day; of two the first, or the second where asked for. One
 * that is skipped is read with the offset before (RFC 5545, 3.3.5).
 */
export function secondOf(clock: DayClock, minute: number, isSecond = false): number {
	const local = epochDayOf(clock.date as LocalDate) * 86400 + minute * 60 - clock.start;
	const found = clock.offsets
		.map(({ from, offset }, place) => ({ at: local - offset, from, to: clock.offsets[place + 1]?.from ?? Infinity }))
		.filter(({ at, from, to }, place) => (place === 0 || at >= from) && at < to)
		.map(({ at }) => at);
	if (found.length === 0) {
		const before = clock.offsets.findLast(({ from, offset }) => from <= local - offset) ?? clock.offsets[0];
		return held(clock, local - (before?.offset ?? 0));
	}
	return held(clock, (isSecond ? found.at(-1) : found[0]) ?? 0);
}

function held({ length }: DayClock, second: number): number {
	return Math.min(Math.max(0, second), Math.max(0, length - 60));
}

/** The change after a second, and the one before it; null where there is none. */
export function changesAround(
	changes: readonly number[],
	second: number
): { before: number | null; after: number | null } {
	return {
		before: changes.findLast((at) => at < second) ?? null,
		after: changes.find((at) => at > second) ?? null
	};
}

/** Full hours of a date for a scale below the slider, by what the clock shows. */
export function hourMarks(clock: DayClock, every: number): { at: number; words: string }[] {
	const marks: { at: number; words: string }[] = [];
	for (let at = 0; at < clock.length; at += 60) {
		const { time, date } = shownAt(clock, at);
		if (date === clock.date && time.endsWith(':00') && Number(time.slice(0, 2)) % every === 0) {
			marks.push({ at, words: time });
		}
	}
	return [...marks, { at: clock.length, words: '24:00' }];
}

function offsetAt({ offsets }: DayClock, second: number): { from: number; offset: number } {
	return offsets.findLast(({ from }, place) => place === 0 || from <= second) ?? { from: 0, offset: 0 };
}

function offsetText(seconds: number): string {
	const minutes = Math.round(Math.abs(seconds) / 60);
	return `UTC${seconds < 0 ? '-' : '+'}${clockText(minutes)}`;
}
