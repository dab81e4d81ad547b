import { type EpochDay, type Weekday, dateOf, weekdayOf, weekdays } from './local-date';
import { dateWords, weekdayNames } from './date-words';
import type { Span, SpanSet } from './spans';
import type { Instant, Zone } from './zone';

/**
 * Span sets in people's words: what comes back every week is told as a week with its first and last date and what is left
 * out, what does not as single dates. Times are those that the clock shows, to the minute. Our own.
 */
export interface Recurring {
	/** Sentences' parts, such as `Mondays 06:00–07:00, 51 times from Mon 4 January 2027`. */
	readonly clauses: readonly string[];
	/** What comes back, without its limits: the same for people who differ only in when they start or leave. */
	readonly pattern: string;
	/** How many spans there are. */
	readonly times: number;
	/** The week that comes back: column 0 (Monday) to 6, minutes of the day; empty where none does. */
	readonly week: readonly { readonly day: number; readonly from: number; readonly to: number }[];
}

/** Minutes of the date on which it starts; `to` runs on past 1440 into the next date. */
interface Times {
	readonly from: number;
	readonly to: number;
}

interface Rule {
	readonly days: readonly Weekday[];
	readonly first: number;
	readonly last: number;
	readonly count: number;
	readonly missing: readonly number[];
	readonly times: Times[];
}

const daySeconds = 86400;
/** Fewer dates of one weekday are told one by one. */
const leastToRecur = 4;
const mostListed = 3;

/** Tells spans that lie in `range`, whose ends are the first instants of dates of the zone. */
export function recurringOf(spans: SpanSet, zone: Zone, range: Span): Recurring {
	if (spans.length <= mostListed) {
		const told = spans.map((span) => spanWords(span, zone, range));
		return {
			clauses: told.map(({ words }) => words),
			pattern: told.map(({ pattern }) => pattern).join('; '),
			times: spans.length,
			week: []
		};
	}
	const limits = { first: zone.dayAt(range.from as Instant), last: zone.dayAt((range.to - 1) as Instant) };
	const { rules, singles } = sortedOut(occurrencesOf(spans, zone));
	const pattern = rules.map((rule) => `${dayWords(rule.days)} ${timesWords(rule.times)}`);
	return {
		clauses: [...rules.map((rule) => ruleWords(rule, limits)), ...singleWords(singles)],
		pattern: rules.length > 0 ? pattern.sort().join('; ') : singleWords(singles).join('; '),
		times: spans.length,
		week: rules.flatMap((rule) => rule.times.flatMap((times) => rule.days.flatMap((day) => barsOf(day, times))))
	};
}

function spanWords(span: Span, zone: Zone, range: Span): { words: string; pattern: string } {
	const [from, to] = [momentWords(span.from, zone), momentWords(span.to, zone, true)];
	if (span.from === range.from && span.to === range.to) return { words: 'always', pattern: 'always' };
	if (span.to - span.from < daySeconds || zone.datesIn(span).length === 1) {
		const start = zone.wallTimeAt(span.from as Instant);
		const times = timesOf(span, zone);
		const words = `on ${dateWords(dateOf(start.day))} ${timesWords([times])}`;
		return { words, pattern: words };
	}
	if (span.to === range.to) return { words: `from ${from} on, always`, pattern: 'from some date on, always' };
	if (span.from === range.from) return { words: `until ${to}, always`, pattern: 'until some date, always' };
	return { words: `from ${from} to ${to}`, pattern: `from ${from} to ${to}` };
}

/** A date with the time, which is left out where it is the date's beginning (of an end: the end of the date before). */
function momentWords(at: number, zone: Zone, isEnd = false): string {
	const { day, minute } = zone.wallTimeAt(at as Instant);
	if (minute !== 0) return `${dateWords(dateOf(day))} ${clockWords(minute)}`;
	return isEnd ? `${dateWords(dateOf((day - 1) as EpochDay))} 24:00` : dateWords(dateOf(day));
}

function timesOf(span: Span, zone: Zone): Times {
	const [start, end] = [zone.wallTimeAt(span.from as Instant), zone.wallTimeAt(span.to as Instant)];
	return { from: start.minute, to: (end.day - start.day) * 1440 + end.minute };
}

/** Spans by date and time; those of a day and longer are cut at each midnight, as a night is not. */
function occurrencesOf(spans: SpanSet, zone: Zone): Map<string, { readonly times: Times; readonly days: number[] }> {
	const byTimes = new Map<string, { readonly times: Times; readonly days: number[] }>();
	const note = (day: number, times: Times) => {
		const key = `${times.from}-${times.to}`;
		const known = byTimes.get(key);
		if (known) known.days.push(day);
		else byTimes.set(key, { times, days: [day] });
	};
	for (const span of spans) {
		if (span.to - span.from < daySeconds) note(zone.dayAt(span.from as Instant), timesOf(span, zone));
		else for (const { day, ...part } of zone.datesIn(span)) note(day, timesOf(part, zone));
	}
	return byTimes;
}

function sortedOut(occurrences: ReturnType<typeof occurrencesOf>): {
	rules: Rule[];
	singles: { times: Times; days: readonly number[] }[];
} {
	const rules = new Map<string, Rule>();
	const singles: { times: Times; days: readonly number[] }[] = [];
	for (const { times, days } of [...occurrences.values()].sort((a, b) => a.times.from - b.times.from)) {
		const { found, rest } = weeklyIn(days);
		for (const rule of found) {
			const key = `${rule.days.join()}|${rule.first}|${rule.last}|${rule.missing.join()}`;
			const known = rules.get(key);
			if (known) known.times.push(times);
			else rules.set(key, { ...rule, times: [times] });
		}
		if (rest.length > 0) singles.push({ times, days: rest });
	}
	const inWeek = (rule: Rule) => weekdays.indexOf(rule.days[0] ?? 'mon');
	return { rules: [...rules.values()].sort((a, b) => a.first - b.first || inWeek(a) - inWeek(b)), singles };
}

/** The weekdays of which most dates from their first to their last are there, joined where these lie in the same weeks. */
function weeklyIn(days: readonly number[]): { found: Omit<Rule, 'times'>[]; rest: readonly number[] } {
	const found: { days: Weekday[]; first: number; last: number }[] = [];
	for (const weekday of weekdays) {
		const own = days.filter((day) => weekdayOf(day as EpochDay) === weekday);
		const [first, last] = [own[0], own.at(-1)];
		if (first === undefined || last === undefined) continue;
		if (own.length < leastToRecur || own.length * 2 < (last - first) / 7 + 1) continue;
		const same = found.find((one) => Math.abs(one.first - first) < 7 && Math.abs(one.last - last) < 7);
		if (same) {
			same.days.push(weekday);
			same.first = Math.min(same.first, first);
			same.last = Math.max(same.last, last);
		} else found.push({ days: [weekday], first, last });
	}
	const there = new Set(days);
	const told = new Set(found.flatMap((one) => one.days));
	return {
		found: found.map((one) => {
			const due: number[] = [];
			for (let day = one.first; day <= one.last; day++)
				if (one.days.includes(weekdayOf(day as EpochDay))) due.push(day);
			const missing = due.filter((day) => !there.has(day));
			return { ...one, count: due.length - missing.length, missing };
		}),
		rest: days.filter((day) => !told.has(weekdayOf(day as EpochDay)))
	};
}

function ruleWords(rule: Rule, limits: { readonly first: number; readonly last: number }): string {
	const isDue = (day: number) => rule.days.includes(weekdayOf(day as EpochDay));
	const parts = [`${dayWords(rule.days)} ${timesWords(rule.times)}, ${rule.count * rule.times.length} times`];
	if (anyIn(limits.first, rule.first - 1, isDue)) parts.push(`from ${dateWords(dateOf(rule.first as EpochDay))}`);
	if (anyIn(rule.last + 1, limits.last, isDue)) parts.push(`until ${dateWords(dateOf(rule.last as EpochDay))}`);
	if (rule.missing.length > 0) parts.push(`but not on ${datesWords(rule.missing)}`);
	return parts.join(' ');
}

function singleWords(singles: readonly { times: Times; days: readonly number[] }[]): string[] {
	return singles.map(({ times, days }) => `on ${datesWords(days)} ${timesWords([times])}`);
}

function datesWords(days: readonly number[]): string {
	const words = (day: number | undefined) => dateWords(dateOf((day ?? 0) as EpochDay));
	if (days.length > mostListed) return `${days.length} dates (first ${words(days[0])}, last ${words(days.at(-1))})`;
	return listWords(days.map(words));
}

/** `Mondays to Fridays`, `Mondays and Thursdays`, `every day`. */
function dayWords(days: readonly Weekday[]): string {
	if (days.length === weekdays.length) return 'every day';
	const names = days.map((day) => `${weekdayNames[day]}s`);
	const places = days.map((day) => weekdays.indexOf(day));
	const isRun = places.every((place, at) => at === 0 || place === (places[at - 1] ?? 0) + 1);
	return isRun && days.length > 2 ? `${names[0]} to ${names.at(-1)}` : listWords(names);
}

function timesWords(times: readonly Times[]): string {
	return listWords(
		times.map(({ from, to }) => `${clockWords(from)}–${to > 1440 ? clockWords(to - 1440) : clockWords(to)}`)
	);
}

function clockWords(minute: number): string {
	const two = (value: number) => String(value).padStart(2, '0');
	return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}

function listWords(words: readonly string[]): string {
	return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

function anyIn(from: number, to: number, is: (day: number) => boolean): boolean {
	for (let day = from; day <= Math.min(to, from + 6); day++) if (is(day)) return true;
	return false;
}

function barsOf(weekday: Weekday, { from, to }: Times): { day: number; from: number; to: number }[] {
	const day = weekdays.indexOf(weekday);
	if (to <= 1440) return [{ day, from, to }];
	return [
		{ day, from, to: 1440 },
		{ day: (day + 1) % 7, from: 0, to: Math.min(1440, to - 1440) }
	];
}
