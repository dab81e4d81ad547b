import type { ReadySchedule } from '../../access/schedule-days';
import { type EpochDay, type Weekday, epochDayFrom, plusDays, weekdayOf, weekdays } from '../../calendar/local-date';
import { spanSetOf } from '../../calendar/spans';
import { remembered } from '../../kernel/remembered';
import { component, textValue, uidOf, wallValue, weekdayValues } from '../support/ical';
import { type WeekPlan, weekParts } from './day-plans';

/** A series of the week in a schedule's `Standard`. */
interface Weekly {
	readonly from: number;
	readonly to: number;
	readonly on: readonly Weekday[];
}

/**
 * The week of a schedule as iCalendar for `Standard`: weekly series in local time that end by midnight. Without limits they begin
 * in 1970 and never end, which every device takes; with limits they begin and end with the schedule, which needs extended
 * recurrence.
 * @source ONVIF Schedule Service specification, "Weekly recurrence" and "Extended recurrence"
 */
export function standardOf(schedule: ReadySchedule, site: string, stamp: string, isLimited: boolean): string {
	const { own, carried } = weekParts(schedule);
	if (!isLimited) {
		const whole = Object.fromEntries(
			weekdays.map((day) => [day, spanSetOf([...own[day], ...carried[day]])])
		) as unknown as WeekPlan;
		return calendarOf(weeklies(whole), epochDayFrom(1970, 1, 1), Infinity);
	}
	const [first, last] = [Math.max(schedule.from, epochDayFrom(1970, 1, 1)) as EpochDay, schedule.until];
	// What a night carries over begins one date after the schedule does.
	const events = [
		...eventsOf(weeklies(own), first, last, 'own'),
		...eventsOf(weeklies(carried), plusDays(first, 1), last, 'carried')
	];
	return object(events);

	function calendarOf(series: readonly Weekly[], start: EpochDay, end: number): string {
		return object(eventsOf(series, start, end, 'week'));
	}

	function eventsOf(series: readonly Weekly[], start: EpochDay, end: number, part: string): string[] {
		return series.flatMap(({ from, to, on }) => {
			const day = firstOn(on, start);
			const last = Number.isFinite(end) ? lastOn(on, end as EpochDay) : undefined;
			if (last !== undefined && last < day) return [];
			const until = last === undefined ? '' : `UNTIL=${wallValue({ day: last, minute: from })};`;
			return component('VEVENT', [
				['UID', uidOf(site, 'schedule', schedule.id, part, `${from}-${to}`)],
				['DTSTAMP', stamp],
				['DTSTART', wallValue({ day, minute: from })],
				['DTEND', wallValue({ day, minute: to })],
				['RRULE', `FREQ=WEEKLY;${until}BYDAY=${on.map((one) => weekdayValues[one]).join()}`]
			]);
		});
	}
}

/** The days of a group as iCalendar for `Days`: an event from midnight to midnight for each. */
export function daysOf(
	days: readonly { readonly day: EpochDay; readonly name: string }[],
	uid: (day: EpochDay) => string,
	stamp: string
): string {
	return object(
		days.map(({ day, name }) =>
			component('VEVENT', [
				['UID', uid(day)],
				['DTSTAMP', stamp],
				['SUMMARY', textValue(name)],
				['DTSTART', wallValue({ day, minute: 0 })],
				['DTEND', wallValue({ day, minute: 1440 })]
			])
		)
	);
}

function object(events: readonly string[]): string {
	const lines = [
		['VERSION', '2.0'],
		['PRODID', '-//Doorwright//Open data model//EN']
	] as const;
	return `${component('VCALENDAR', lines, events)}\r\n`;
}

/** Periods that are the same on several weekdays are one series. */
function weeklies(week: WeekPlan): Weekly[] {
	const daysByPeriod = new Map<string, Weekday[]>();
	for (const day of weekdays) {
		for (const { from, to } of week[day]) remembered(daysByPeriod, `${from}-${to}`, () => []).push(day);
	}
	return [...daysByPeriod].map(([period, on]) => {
		const [from = 0, to = 0] = period.split('-').map(Number);
		return { from, to, on };
	});
}

function firstOn(on: readonly Weekday[], start: EpochDay): EpochDay {
	let day = start;
	while (!on.includes(weekdayOf(day))) day = plusDays(day, 1);
	return day;
}

function lastOn(on: readonly Weekday[], end: EpochDay): EpochDay {
	let day = end;
	while (!on.includes(weekdayOf(day))) day = plusDays(day, -1);
	return day;
}
