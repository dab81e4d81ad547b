import { readySchedule } from '../access/schedule-days';
import { epochDayOf, plusDays } from '../calendar/local-date';
import { clockText } from '../calendar/stretch';
import { type Instant, Zone } from '../calendar/zone';
import { nameOf } from '../document/names';
import type { Rollout, Schedule } from '../document/schema';
import { defineExport } from './define-export';
import {
	type Line,
	calendarFile,
	component,
	instantValue,
	textValue,
	uidOf,
	wallValue,
	weekdayValues
} from './support/ical';
import { plainOf } from './support/plain-name';
import { type Series, type Single, eventsOf } from './support/schedule-series';
import { vtimezone } from './support/vtimezone';

export default defineExport({
	name: 'schedule-calendars',
	title: 'Calendar of each schedule',
	summary:
		'An iCalendar file (RFC 5545) per schedule with exactly the minutes at which it is open in the horizon: weekly series with exceptions, and single events for holidays with hours of their own, for what a date cuts at midnight and for clock changes.',
	files: ({ rollout, madeAt }) =>
		rollout.schedules.map((schedule) => ({
			name: `schedule-${plainOf(schedule.id)}.ics`,
			type: 'text/calendar',
			about: nameOf(rollout.schedules, schedule.id),
			content: () => calendarOf(rollout, schedule, madeAt)
		}))
});

function calendarOf(rollout: Rollout, schedule: Schedule, madeAt: number): string {
	const { site, horizon } = rollout;
	const [from, until] = [epochDayOf(horizon.from), epochDayOf(horizon.until)];
	const zone = new Zone(site.timeZone, plusDays(from, -6), plusDays(until, 6));
	const { series, singles } = eventsOf(rollout, readySchedule(schedule), zone);
	const name = nameOf(rollout.schedules, schedule.id);
	const common: Line[] = [
		['DTSTAMP', instantValue(Math.floor(madeAt / 1000) as Instant)],
		['TRANSP', 'TRANSPARENT']
	];
	const events = [
		...series.map((one) => component('VEVENT', [...seriesLines(one, rollout, schedule.id, name), ...common])),
		...singles.map((one) => component('VEVENT', [...singleLines(one, rollout, schedule.id, name), ...common]))
	];
	const about = `When ${name} is open, from ${horizon.from} until ${horizon.until}; of other dates it says nothing.`;
	return calendarFile(`${name}, ${site.name}`, about, [vtimezone(site.timeZone, from, until), ...events]);
}

function seriesLines(one: Series, { site }: Rollout, schedule: string, name: string): Line[] {
	const { from, to, first, last, except } = one;
	const hours = `${clockText(from)}-${clockText(to)}`;
	const at = `TZID=${site.timeZone}`;
	const rule = `FREQ=WEEKLY;UNTIL=${instantValue(one.lastAt)};BYDAY=${one.weekdays.map((day) => weekdayValues[day]).join()}`;
	return [
		['UID', uidOf(site.name, 'schedule', schedule, hours, ...(one.part === 0 ? [] : [String(one.part + 1)]))],
		[`DTSTART;${at}`, wallValue({ day: first, minute: from })],
		[`DTEND;${at}`, wallValue({ day: first, minute: to })],
		...(first === last ? [] : [['RRULE', rule] as const]),
		...except.map((day): Line => [`EXDATE;${at}`, wallValue({ day, minute: from })]),
		['SUMMARY', textValue(`${name} ${hours}`)]
	];
}

const reasons: Readonly<Record<Single['because'], string>> = {
	holiday: 'Hours of their own on this holiday.',
	cut: 'Ends at midnight: the next date is a holiday or lies outside of the validity of the schedule.',
	'clock-change': 'The clock changes: given by its instants.',
	horizon: 'Cut at the end of the horizon.'
};

function singleLines(one: Single, { site }: Rollout, schedule: string, name: string): Line[] {
	const { from, to, holiday } = one;
	const onDay = holiday === undefined ? name : `${name}, ${holiday.name ?? holiday.kind}`;
	return [
		['UID', uidOf(site.name, 'schedule', schedule, instantValue(from), instantValue(to))],
		['DTSTART', instantValue(from)],
		['DTEND', instantValue(to)],
		['SUMMARY', textValue(onDay)],
		['DESCRIPTION', textValue(reasons[one.because])]
	];
}
