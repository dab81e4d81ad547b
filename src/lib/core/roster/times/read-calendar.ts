import ICAL from 'ical.js';
import { type EpochDay, epochDayFrom } from '../../calendar/local-date';
import type { WallTime } from '../../calendar/local-date-time';
import { Zone } from '../../calendar/zone';
import { isTimeZone } from '../../calendar/time-zone-name';
import { fault } from '../../kernel/fault';
import { type Result, ok, refused } from '../../kernel/result';
import { type TimesProblem, timesProblem } from './problem';

/** An event of a calendar, as it falls into the asked dates. */
export interface CalendarEvent {
	/** Counted from 1 in the file. */
	readonly row: number;
	readonly summary: string;
	/** Addresses of those invited, without `mailto:`. */
	readonly attendees: readonly string[];
	/** Whole days, both inclusive. */
	readonly days: readonly { readonly from: EpochDay; readonly until: EpochDay }[];
	/** Times by the clock of the site. */
	readonly times: readonly { readonly from: WallTime; readonly to: WallTime }[];
}

export interface Calendar {
	/** What the calendar as a whole is called: whose it is, where it is of one person. */
	readonly name: string;
	readonly events: readonly CalendarEvent[];
	readonly problems: readonly TimesProblem[];
}

const mostRepeats = 4000;

/** Which dates are asked for, and the zone of the site. */
export interface CalendarWanted {
	readonly from: EpochDay;
	readonly until: EpochDay;
	readonly zone: Zone;
}

/**
 * Reads the events of an iCalendar file that fall into some dates: whole days with an exclusive end, times in UTC, in a zone that
 * the file explains or the platform knows, or floating (by the clock of the site); repetitions with their exceptions. Canceled
 * events are left out. Refuses text that is no iCalendar.
 * @source RFC 5545, read by ical.js: 3.6.1 (DTEND, all day), 3.8.5 (recurrence), 3.8.1.11 (STATUS), 3.3.5 (forms of time)
 */
export function readCalendar(text: string, wanted: CalendarWanted): Result<Calendar> {
	let root: ICAL.Component;
	try {
		const parsed = ICAL.parse(text) as unknown[];
		// Several calendars in one file come as a list of them.
		const calendars = (typeof parsed[0] === 'string' ? [parsed] : parsed) as unknown[][];
		root = new ICAL.Component(['all', [], calendars]);
	} catch (error) {
		const why = error instanceof Error ? error.message : String(error);
		return refused([fault([], text.slice(0, 60), `a calendar as in RFC 5545; it cannot be read (${why})`)]);
	}
	const calendars = root.getAllSubcomponents('vcalendar');
	if (calendars.length === 0) return refused([fault([], text.slice(0, 60), 'a calendar: BEGIN:VCALENDAR')]);
	const events: CalendarEvent[] = [];
	const problems: TimesProblem[] = [];
	let row = 0;
	for (const calendar of calendars) {
		const all = calendar.getAllSubcomponents('vevent');
		for (const component of all) {
			row++;
			const summary = textOf(component.getFirstPropertyValue('summary'));
			const tell = (told: TimesProblem): void => void problems.push(told);
			try {
				const read = readEvent(component, all, row, summary, wanted, tell);
				if (read) events.push(read);
			} catch (error) {
				const why = error instanceof Error ? error.message : String(error);
				tell(timesProblem('event-broken', { row, column: null, value: summary }, why));
			}
		}
	}
	const [first] = calendars;
	return ok({
		name: textOf(first?.getFirstPropertyValue('x-wr-calname') ?? first?.getFirstPropertyValue('name')),
		events,
		problems
	});
}

function readEvent(
	component: ICAL.Component,
	all: readonly ICAL.Component[],
	row: number,
	summary: string,
	wanted: CalendarWanted,
	tell: (told: TimesProblem) => void
): CalendarEvent | undefined {
	if (textOf(component.getFirstPropertyValue('status')).toUpperCase() === 'CANCELLED') return undefined;
	const start = component.getFirstProperty('dtstart');
	const event = new ICAL.Event(component, { strictExceptions: false });
	if (!start || !(start.getFirstValue() instanceof ICAL.Time)) {
		tell(timesProblem('date-missing', { row, column: 'DTSTART', value: summary }));
		return undefined;
	}
	const attendees = component
		.getAllProperties('attendee')
		.map((one) => textOf(one.getFirstValue()).replace(/^mailto:/i, ''))
		.filter((one) => one.includes('@'));
	const base = { row, summary, attendees };
	const instances: { from: ICAL.Time; to: ICAL.Time }[] = [];
	if (!event.isRecurring()) instances.push({ from: event.startDate, to: event.endDate });
	else {
		// Instances that were moved stand as events of their own; here they only leave their place.
		const moved = new Set(
			all.flatMap((one) => {
				const at: unknown = one.getFirstPropertyValue('recurrence-id');
				return textOf(one.getFirstPropertyValue('uid')) === event.uid && at instanceof ICAL.Time ? [at.toString()] : [];
			})
		);
		const iterator = event.iterator();
		for (let count = 0; ; count++) {
			const next = iterator.next() as ICAL.Time | undefined;
			if (!next || dayOf(next) > wanted.until + 1) break;
			if (count >= mostRepeats) {
				tell(timesProblem('too-many', { row, column: 'RRULE', value: summary }, mostRepeats));
				return undefined;
			}
			if (moved.has(next.toString())) continue;
			const to = next.clone();
			to.addDuration(event.duration);
			instances.push({ from: next, to });
		}
	}
	const days: { from: EpochDay; until: EpochDay }[] = [];
	const times: { from: WallTime; to: WallTime }[] = [];
	const zoneName = textOf(start.getParameter('tzid'));
	for (const { from, to } of instances) {
		if (from.isDate) {
			// The end is the day after the last; without one it is one day.
			const until = Math.max(dayOf(from), dayOf(to) - 1) as EpochDay;
			if (until >= wanted.from && dayOf(from) <= wanted.until) days.push({ from: dayOf(from), until });
			continue;
		}
		const [begin, end] = [wallOf(from, zoneName, wanted.zone), wallOf(to, zoneName, wanted.zone)];
		if (!begin || !end) {
			tell(timesProblem('zone-unknown', { row, column: 'DTSTART', value: summary }, zoneName));
			return undefined;
		}
		if (begin.day >= wanted.from && begin.day <= wanted.until) times.push({ from: begin, to: end });
	}
	return { ...base, days, times };
}

function dayOf(time: ICAL.Time): EpochDay {
	return epochDayFrom(time.year, time.month, time.day);
}

/** What the clock of the site shows at a time; undefined where its zone is not known. */
function wallOf(time: ICAL.Time, zoneName: string, zone: Zone): WallTime | undefined {
	const written = { day: dayOf(time), minute: time.hour * 60 + time.minute };
	const { zone: known } = time;
	const isUtc = known === ICAL.Timezone.utcTimezone;
	const isExplained = !isUtc && known !== ICAL.Timezone.localTimezone;
	if (!isUtc && !isExplained) {
		if (zoneName === '' || zoneName === zone.name) return written;
		if (!isTimeZone(zoneName)) return undefined;
		return shownAt(
			new Zone(zoneName, (written.day - 2) as EpochDay, (written.day + 2) as EpochDay).instantOf(written),
			zone
		);
	}
	if (isExplained && zoneName === zone.name) return written;
	return shownAt(time.toUnixTime(), zone);
}

function shownAt(seconds: number, zone: Zone): WallTime {
	const local = seconds + zone.offsetAt(seconds as Parameters<Zone['offsetAt']>[0]);
	const day = Math.floor(local / 86_400);
	return { day: day as EpochDay, minute: Math.floor((local - day * 86_400) / 60) };
}

function textOf(value: unknown): string {
	return typeof value === 'string' ? value.trim() : '';
}
