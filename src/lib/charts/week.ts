import { type Weekday, weekdays } from '$lib/core/calendar/local-date';
import { type Stretch, clockText, readStretch } from '$lib/core/calendar/stretch';

/** The stretches of a week as written in a schedule; a day with no entry is closed. */
export type Week = Readonly<Partial<Record<Weekday, readonly string[]>>>;

/** A piece of a week sheet: what one stretch covers of one column. */
export interface WeekBar {
	/** Column, 0 is Monday. */
	readonly day: number;
	/** Minutes after midnight of the column, 0 to 1440. */
	readonly from: number;
	readonly to: number;
	/** Begun on the day before and carried over midnight. */
	readonly isCarried: boolean;
	/** Column and place of the stretch it belongs to. */
	readonly startDay: number;
	readonly place: number;
}

export const dayNames: Readonly<Record<Weekday, string>> = {
	mon: 'Monday',
	tue: 'Tuesday',
	wed: 'Wednesday',
	thu: 'Thursday',
	fri: 'Friday',
	sat: 'Saturday',
	sun: 'Sunday'
};

/** Three letters of a weekday: `Mon`. */
export function shortDay(day: Weekday): string {
	return dayNames[day].slice(0, 3);
}

/**
 * The bars of an ordinary week: what runs past midnight is carried into the next column, from Sunday into Monday. Text that
 * is no stretch draws nothing.
 */
export function weekBars(week: Week): WeekBar[] {
	return weekdays.flatMap((weekday, startDay) =>
		(week[weekday] ?? []).flatMap((text, place) => {
			const stretch = readStretch(text);
			return stretch ? barsOf(stretch, startDay, place) : [];
		})
	);
}

function barsOf({ from, to }: Stretch, startDay: number, place: number): WeekBar[] {
	const first = { day: startDay, from, to: Math.min(to, 1440), isCarried: false, startDay, place };
	if (to <= 1440) return [first];
	return [first, { day: (startDay + 1) % 7, from: 0, to: to - 1440, isCarried: true, startDay, place }];
}

/** The places at which bars of one column share a minute, by column: doubtful, and shown as such. */
export function doubledMinutes(bars: readonly WeekBar[]): { day: number; from: number; to: number }[] {
	const doubled: { day: number; from: number; to: number }[] = [];
	for (let day = 0; day < 7; day++) {
		const column = bars.filter((bar) => bar.day === day).sort((a, b) => a.from - b.from);
		let until = -1;
		for (const bar of column) {
			if (bar.from < until) doubled.push({ day, from: bar.from, to: Math.min(bar.to, until) });
			until = Math.max(until, bar.to);
		}
	}
	return doubled;
}

/**
 * A stretch as text. Ends beyond 1440 minutes run past midnight, at most to the start on the next day.
 * @example stretchText(1320, 1800) // '22:00-06:00'
 */
export function stretchText(from: number, to: number): string {
	return `${clockText(from)}-${clockText(to)}`;
}

/** A week in words, days of the same hours together: `Mon–Fri 07:00–19:00; Sat 08:00–12:00`. */
export function weekWords(week: Week): string {
	const runs: { first: Weekday; last: Weekday; hours: string }[] = [];
	for (const weekday of weekdays) {
		const hours = (week[weekday] ?? []).map((text) => text.replace('-', '–')).join(', ');
		const run = runs.at(-1);
		if (run && run.hours === hours) run.last = weekday;
		else runs.push({ first: weekday, last: weekday, hours });
	}
	const told = runs
		.filter((run) => run.hours !== '')
		.map(({ first, last, hours }) => {
			const days = first === last ? shortDay(first) : `${shortDay(first)}–${shortDay(last)}`;
			return `${days} ${hours}`;
		});
	return told.length === 0 ? 'closed all week' : told.join('; ');
}

/**
 * Reads what a person typed for a day: stretches divided by commas, semicolons or line ends. Taken are `07:00-19:00` and
 * what people write for it: `7-19`, `7:00–19:00`, `0700-1900`. `closed` and nothing mean no stretch. What cannot be read is
 * given back as typed, so that it can be told in one go.
 */
export function readDay(text: string): { stretches: string[]; unread: string[] } {
	const parts = text
		.split(/[,;\r\n]+/)
		.map((part) => part.trim())
		.filter((part) => part !== '' && part.toLowerCase() !== 'closed');
	const stretches: string[] = [];
	const unread: string[] = [];
	for (const part of parts) {
		const match = /^(\d{1,2})(?::?(\d{2}))?\s*(?:-|–|—|to)\s*(\d{1,2})(?::?(\d{2}))?$/.exec(part);
		const written = match
			? `${match[1]?.padStart(2, '0')}:${match[2] ?? '00'}-${match[3]?.padStart(2, '0')}:${match[4] ?? '00'}`
			: part;
		if (readStretch(written)) stretches.push(written);
		else unread.push(part);
	}
	return { stretches, unread };
}
