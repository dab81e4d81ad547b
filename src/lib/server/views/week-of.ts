import type { AccessModel } from '$lib/core/access/model';
import {
	type EpochDay,
	type LocalDate,
	dateOf,
	epochDayOf,
	isLocalDate,
	plusDays,
	weekdayOf,
	weekdays
} from '$lib/core/calendar/local-date';
import type { SpanSet } from '$lib/core/calendar/spans';
import { clockText } from '$lib/core/calendar/stretch';
import type { Instant } from '$lib/core/calendar/zone';
import { weekWords } from '$lib/charts/week';
import type { Rollout } from '$lib/core/document/schema';
import type { CellBar } from '$lib/components/access/grid';

/** A real week, Monday to Sunday. */
export interface RealWeek {
	readonly from: LocalDate;
	readonly until: LocalDate;
	readonly before: LocalDate;
	readonly after: LocalDate;
	/** Holidays in it, by column. */
	readonly holidays: readonly {
		readonly day: number;
		readonly date: string;
		readonly name: string;
		readonly kind: string;
	}[];
}

/**
 * The week of a date that is asked for. Without one: this week while the horizon runs; before and after it, the week in
 * which the last wave has gone live, when access is as it is meant to be.
 */
export function weekOf(rollout: Rollout, asked: string | null, today: LocalDate): RealWeek {
	const date =
		asked !== null && isLocalDate(asked) && asked > '0002' && asked < '9998' ? asked : usualDate(rollout, today);
	const day = epochDayOf(date);
	const monday = plusDays(day, -weekdays.indexOf(weekdayOf(day)));
	const dates = weekdays.map((_, place) => dateOf(plusDays(monday, place)));
	return {
		from: dateOf(monday),
		until: dateOf(plusDays(monday, 6)),
		before: dateOf(plusDays(monday, -7)),
		after: dateOf(plusDays(monday, 7)),
		holidays: dates.flatMap((one, day) => {
			const listed = rollout.holidays.days.find((holiday) => holiday.date === one);
			return listed ? [{ day, date: one, name: listed.name ?? listed.kind, kind: listed.kind }] : [];
		})
	};
}

function usualDate({ horizon, enrollment }: Rollout, today: LocalDate): LocalDate {
	if (today >= horizon.from && today <= horizon.until) return today;
	const live = enrollment.waves
		.flatMap(({ goLive }) => goLive ?? [])
		.sort()
		.at(-1);
	if (live === undefined) return horizon.from;
	const settled = dateOf(plusDays(epochDayOf(live), 7));
	return settled >= horizon.from && settled <= horizon.until ? settled : horizon.from;
}

/** Spans of a model's week as bars of its columns, on the wall clock. What a clock change repeats is drawn once. */
export function barsOf(spans: SpanSet, model: AccessModel): CellBar[] {
	return spans.flatMap((span) => {
		const bars: CellBar[] = [];
		for (let day = model.from; day <= model.until; day = plusDays(day, 1)) {
			const [start, end] = [model.zone.midnightOf(day), model.zone.midnightOf(plusDays(day, 1))];
			if (span.to <= start || span.from >= end) continue;
			const from = span.from <= start ? 0 : model.zone.wallTimeAt(span.from as Instant).minute;
			const to = span.to >= end ? 1440 : model.zone.wallTimeAt(span.to as Instant).minute;
			if (from < to) bars.push({ day: day - model.from, from, to });
		}
		return bars;
	});
}

/** Spans of a model's week in words, nights as one stretch: `Mon–Thu 21:30–06:30`. */
export function spansWords(spans: SpanSet, model: AccessModel): string {
	const { from, to } = model.range;
	if (spans.length === 1 && spans[0] && spans[0].from <= from && spans[0].to >= to) return 'all week, day and night';
	const week = Object.fromEntries(weekdays.map((day) => [day, [] as string[]]));
	for (const span of spans) {
		// Longer than a day: told day by day, since no stretch says it.
		const isLong = span.to - span.from > 86400;
		const parts = isLong ? barsOf([span], model) : [stretchOf(span.from, span.to, model)];
		for (const part of parts) {
			const day = weekdays[part.day];
			if (day !== undefined) week[day]?.push(`${clockText(part.from)}-${clockText(part.to)}`);
		}
	}
	return weekWords(week);
}

function stretchOf(from: number, to: number, model: AccessModel): CellBar {
	const [start, end] = [model.zone.wallTimeAt(from as Instant), model.zone.wallTimeAt(to as Instant)];
	const isNextMidnight = end.minute === 0 && end.day > start.day;
	return { day: start.day - model.from, from: start.minute, to: isNextMidnight ? 1440 : end.minute };
}

/** The dates of a week as whole numbers. */
export function daysOfWeek(week: RealWeek): EpochDay[] {
	const monday = epochDayOf(week.from);
	return weekdays.map((_, place) => plusDays(monday, place));
}
