import { type LocalDate, localDate } from '$lib/core/calendar/local-date';
import { isTimeZone } from '$lib/core/calendar/time-zone-name';

/** The server's clock, read in one place. */

/** Today's date at a site. */
export function todayAt(timeZone: string, now = new Date()): LocalDate {
	return localDate(new Intl.DateTimeFormat('en-CA', { timeZone, dateStyle: 'short' }).format(now));
}

/** Date, time and zone of an instant at a site, as title blocks show it: `25 Nov 2026, 11:20 CST`. */
export function shownAt(timeZone: string, instant: Date | string = new Date()): string {
	const parts = new Intl.DateTimeFormat('en-GB', {
		timeZone: isTimeZone(timeZone) ? timeZone : 'UTC',
		day: 'numeric',
		month: 'short',
		year: 'numeric',
		hour: '2-digit',
		minute: '2-digit',
		hourCycle: 'h23'
	}).format(new Date(instant));
	const zone = new Intl.DateTimeFormat('en-US', { timeZone, timeZoneName: 'short' })
		.formatToParts(new Date(instant))
		.find(({ type }) => type === 'timeZoneName')?.value;
	return `${parts} ${zone ?? timeZone}`;
}
