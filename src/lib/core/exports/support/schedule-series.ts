import { holidaysByDay } from '../../access/holidays';
import { type Opening, type ReadySchedule, dayRuleOf, openingsOn } from '../../access/schedule-days';
import { type EpochDay, type Weekday, epochDayOf, plusDays, weekdayOf, weekdays } from '../../calendar/local-date';
import type { Instant, Zone } from '../../calendar/zone';
import type { Holiday, Rollout } from '../../document/schema';
import { remembered } from '../../kernel/remembered';

/**
 * The openings of a schedule over the horizon as weekly series with exceptions, and as single events.
 *
 * The idea: an occurrence joins a series only where every reading of the standard gives the same instants for it: it begins and
 * ends at times that the clock shows once, with one offset, and nothing cuts it. All others (shortened by the next date, by the
 * horizon or by a clock change, or on holidays with hours of their own) are single events given by their instants. Invariant: the
 * union of all events is the set of instants at which the core says that the schedule is open in the horizon. Our own.
 * @source RFC 5545, section 3.8.5.3: with DTEND all occurrences last equally long in elapsed time, and programs differ in that;
 * section 3.3.10 says of times that do not exist both that they are left out and that they are shifted
 */

/** Wall-clock hours that come again every week on some weekdays. */
export interface Series {
	/** Minutes after midnight. */
	readonly from: number;
	readonly to: number;
	/** Which part of a series that a date left out by the zone interrupts, from 0. */
	readonly part: number;
	/** In the order of the week; every occurrence lies on one of them, and so does the first. */
	readonly weekdays: readonly Weekday[];
	readonly first: EpochDay;
	readonly last: EpochDay;
	/** The instant at which the last one begins. */
	readonly lastAt: Instant;
	/** Dates between the first and the last on which the hours do not hold. */
	readonly except: readonly EpochDay[];
}

/** An opening that stands alone. */
export interface Single {
	readonly day: EpochDay;
	readonly from: Instant;
	readonly to: Instant;
	/** Why it is none of a series. */
	readonly because: 'holiday' | 'cut' | 'clock-change' | 'horizon';
	readonly holiday: Holiday | undefined;
}

export interface ScheduleEvents {
	readonly series: readonly Series[];
	readonly singles: readonly Single[];
}

/** The events of a schedule that give exactly the instants of the horizon at which it is open. */
export function eventsOf(rollout: Rollout, schedule: ReadySchedule, zone: Zone): ScheduleEvents {
	const holidays = holidaysByDay(rollout);
	const [first, last] = [epochDayOf(rollout.horizon.from), epochDayOf(rollout.horizon.until)];
	const range = { from: zone.midnightOf(first), to: zone.midnightOf(plusDays(last, 1)) };
	const daysByHours = new Map<string, EpochDay[]>();
	const singles = new Map<string, Single>();
	// A stretch lasts a day at most, and a zone leaves out one date at most: what began three dates earlier is over.
	for (let day = first - 3; day <= last; day++) {
		const { rule } = dayRuleOf(schedule, day as EpochDay, holidays);
		for (const opening of openingsOn(schedule, day as EpochDay, holidays, zone)) {
			const from = Math.max(opening.from, range.from) as Instant;
			const to = Math.min(opening.to, range.to) as Instant;
			if (from >= to) continue;
			const isClipped = from !== opening.from || to !== opening.to;
			const isRegular = !isClipped && isAsWritten(opening, zone);
			const hours = `${opening.stretch.from}-${opening.stretch.to}`;
			if (isRegular && isInWeek(schedule, opening)) {
				const days = remembered(daysByHours, hours, (): EpochDay[] => []);
				if (days.at(-1) !== opening.day) days.push(opening.day);
				continue;
			}
			const because = isClipped ? 'horizon' : isRegular ? 'holiday' : opening.isCut ? 'cut' : 'clock-change';
			const holiday = rule === 'holiday-list' ? holidays.get(opening.day) : undefined;
			singles.set(`${from}-${to}`, { day: opening.day, from, to, because, holiday });
		}
	}
	const series = [...daysByHours].flatMap(([hours, days]) => {
		const [from = 0, to = 0] = hours.split('-').map(Number);
		return partedAtGaps(days, zone).map((part, place) => seriesOf(from, to, place, part, zone));
	});
	return { series, singles: [...singles.values()].sort((a, b) => a.from - b.from || a.to - b.to) };
}

/** Begins and ends at the wall-clock times as written, each shown once, with one offset. */
function isAsWritten({ day, stretch: { from, to }, ...opening }: Opening, zone: Zone): boolean {
	const [start, end] = [
		{ day, minute: from },
		{ day, minute: to }
	];
	return (
		zone.fateOf(start) === 'once' &&
		zone.fateOf(end) === 'once' &&
		opening.from === zone.instantOf(start) &&
		opening.to === zone.instantOf(end) &&
		opening.to - opening.from === (to - from) * 60
	);
}

/** A holiday that has the hours of its weekday too is no exception. */
function isInWeek(schedule: ReadySchedule, { day, stretch }: Opening): boolean {
	return schedule.week[weekdayOf(day)].some(({ from, to }) => from === stretch.from && to === stretch.to);
}

/**
 * Days of a series, parted at dates that the zone leaves out: a series across one would have an occurrence on it, and by its
 * instant that cannot be told from one of the next date.
 */
function partedAtGaps(days: readonly EpochDay[], zone: Zone): EpochDay[][] {
	const parts: EpochDay[][] = [];
	let before: EpochDay | undefined;
	for (const day of days) {
		let isParted = before === undefined;
		for (let between = before ?? day; between < day; between++) isParted ||= !zone.hasDate(between);
		if (isParted) parts.push([]);
		parts.at(-1)?.push(day);
		before = day;
	}
	return parts;
}

function seriesOf(from: number, to: number, part: number, days: readonly EpochDay[], zone: Zone): Series {
	const [first, last] = [days[0] as EpochDay, days.at(-1) as EpochDay];
	const on = new Set(days.map(weekdayOf));
	const there = new Set(days);
	const except: EpochDay[] = [];
	for (let day = first; day <= last; day = plusDays(day, 1)) {
		if (on.has(weekdayOf(day)) && !there.has(day)) except.push(day);
	}
	const lastAt = zone.instantOf({ day: last, minute: from });
	return { from, to, part, weekdays: weekdays.filter((day) => on.has(day)), first, last, lastAt, except };
}
