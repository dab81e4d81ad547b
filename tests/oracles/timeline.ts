import { Temporal } from 'temporal-polyfill';

/**
 * The minutes of some dates in one time zone, each with the local date that its clock shows. A minute is an index: 0 is
 * the first minute of the dates before `from` that are kept as a margin. All time arithmetic is that of Temporal.
 */
export class Timeline {
	/** The dates of the calendar that the timeline knows, in order, those that the zone leaves out included. */
	readonly dates: readonly string[];
	/** How many minutes there are. */
	readonly length: number;
	readonly zone: string;
	readonly #start: number;
	readonly #dateIndex: Int16Array;
	readonly #dateNumber: ReadonlyMap<string, number>;
	readonly #known = new Map<string, number>();

	constructor(zone: string, from: string, until: string) {
		this.zone = zone;
		// A clock can be turned back into the date before: that one is known, though its minutes are not all there.
		const first = Temporal.PlainDate.from(from).subtract({ days: 5 });
		const last = Temporal.PlainDate.from(until).add({ days: 4 });
		const dates: string[] = [];
		for (let date = first; Temporal.PlainDate.compare(date, last) <= 0; date = date.add({ days: 1 })) {
			dates.push(date.toString());
		}
		this.dates = dates;
		this.#dateNumber = new Map(dates.map((date, index) => [date, index]));
		const begin = first.add({ days: 1 }).toZonedDateTime(zone);
		this.#start = begin.epochMilliseconds / 60_000;
		this.length = last.add({ days: 1 }).toZonedDateTime(zone).epochMilliseconds / 60_000 - this.#start;
		this.#dateIndex = new Int16Array(this.length);

		const firstDay = daysSince1970(first);
		// The clock runs evenly between two changes of its offset.
		let offsetMinutes = begin.offsetNanoseconds / 60e9;
		let change = begin.getTimeZoneTransition('next');
		for (let minute = 0; minute < this.length; minute++) {
			const at = this.#start + minute;
			if (change !== null && at >= change.epochMilliseconds / 60_000) {
				offsetMinutes = change.offsetNanoseconds / 60e9;
				change = change.getTimeZoneTransition('next');
			}
			this.#dateIndex[minute] = Math.floor((at + offsetMinutes) / 1440) - firstDay;
		}
	}

	/** The local date at a minute. */
	dateAt(minute: number): string {
		const date = this.dates[this.#dateIndex[minute] ?? -1];
		if (date === undefined) throw new RangeError('a minute outside of the timeline');
		return date;
	}

	/** The position in `dates` of the local date at a minute. */
	dateIndexAt(minute: number): number {
		return this.#dateIndex[minute] ?? -1;
	}

	/** True for a date that the zone does not leave out. */
	hasDate(date: string): boolean {
		const first = this.firstMinuteOf(date);
		return first >= 0 && first < this.length && this.dateAt(first) === date;
	}

	/** The first instant of a date; where the zone leaves the date out, the first one after it. */
	firstMinuteOf(date: string): number {
		return this.#remembered(`first ${date}`, () =>
			this.#minuteOf(Temporal.PlainDate.from(date).toZonedDateTime(this.zone))
		);
	}

	/**
	 * The minute of a time of day, skipped and repeated times read as Temporal's `compatible`, which is what RFC 5545,
	 * section 3.3.5 asks for. 24:00 is the next date's 00:00.
	 */
	minuteOf(date: string, time: string): number {
		return this.#remembered(`${date} ${time}`, () => this.#minuteOf(this.#zoned(date, time, 'compatible')));
	}

	/** How often a clock in the zone shows a time of day on a date: not at all, twice, or once as a rule. */
	fateOf(date: string, time: string): 'skipped' | 'repeated' | 'once' {
		const earlier = this.#zoned(date, time, 'earlier');
		const later = this.#zoned(date, time, 'later');
		if (earlier.equals(later)) return 'once';
		return later.toPlainDateTime().equals(wallTime(date, time)) ? 'repeated' : 'skipped';
	}

	/** A minute as RFC 3339 text with the zone's offset. */
	textOf(minute: number): string {
		return Temporal.Instant.fromEpochMilliseconds((this.#start + minute) * 60_000)
			.toZonedDateTimeISO(this.zone)
			.toString({ timeZoneName: 'never', smallestUnit: 'second' });
	}

	/** The minute of RFC 3339 text. */
	minuteOfText(text: string): number {
		return Temporal.Instant.from(text).epochMilliseconds / 60_000 - this.#start;
	}

	#zoned(date: string, time: string, disambiguation: 'compatible' | 'earlier' | 'later'): Temporal.ZonedDateTime {
		return wallTime(date, time).toZonedDateTime(this.zone, { disambiguation });
	}

	#minuteOf(at: Temporal.ZonedDateTime): number {
		return at.epochMilliseconds / 60_000 - this.#start;
	}

	#remembered(key: string, compute: () => number): number {
		const known = this.#known.get(key);
		if (known !== undefined) return known;
		const value = compute();
		this.#known.set(key, value);
		return value;
	}

	/** The position in `dates` of a date; -1 where the timeline does not reach. */
	indexOf(date: string): number {
		return this.#dateNumber.get(date) ?? -1;
	}
}

function wallTime(date: string, time: string): Temporal.PlainDateTime {
	if (time === '24:00') return Temporal.PlainDate.from(date).add({ days: 1 }).toPlainDateTime();
	return Temporal.PlainDate.from(date).toPlainDateTime(Temporal.PlainTime.from(time));
}

function daysSince1970(date: Temporal.PlainDate): number {
	return Temporal.PlainDate.from('1970-01-01').until(date, { largestUnit: 'day' }).days;
}

/** The same arithmetic is asked for at every minute: it is done once. */
function remembering<Args extends readonly (string | number)[], T>(
	compute: (...args: Args) => T
): (...args: Args) => T {
	const known = new Map<string, T>();
	return (...args) => {
		const key = args.join(' ');
		const value = known.get(key) ?? compute(...args);
		known.set(key, value);
		return value;
	};
}

/** The date `days` after a date. */
export const plusDays = remembering((date: string, days: number) =>
	Temporal.PlainDate.from(date).add({ days }).toString()
);

/** Days from one date to another. */
export const daysBetween = remembering(
	(from: string, to: string) =>
		Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to), { largestUnit: 'day' }).days
);

/** The day of the week of a date. */
export const dayOfWeek = remembering((date: string) => {
	const names = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
	return names[Temporal.PlainDate.from(date).dayOfWeek - 1] ?? 'mon';
});
