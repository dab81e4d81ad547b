import { type EpochDay, plusDays } from '../../calendar/local-date';
import { Zone } from '../../calendar/zone';
import { component, wallValue } from './ical';

/** Room on both sides of the dates, so that a reader that looks a little further finds its clock changes too. */
const roomDays = 400;

/**
 * The VTIMEZONE of a zone for some dates, from the same table that the core reckons with: the offset at the beginning, and each
 * clock change as an observance of its own, because readers differ in how they take RRULE and RDATE in one. Complete from 400 days
 * before the dates to 400 days after. STANDARD and DAYLIGHT only name the observances: DAYLIGHT where the clock is ahead of what it
 * shows at some time in the year around.
 * @source RFC 5545, section 3.6.5
 */
export function vtimezone(name: string, from: EpochDay, until: EpochDay): string {
	const first = plusDays(from, -roomDays);
	const zone = new Zone(name, first, plusDays(until, roomDays));
	const changes = zone.clockChanges;
	const start = changes[0]?.before ?? zone.offsetAt(zone.midnightOf(from));
	const year = 366 * 86400;
	const observances = changes.map(({ at, before, after }) => {
		const near = changes.filter((one) => Math.abs(one.at - at) < year);
		const least = Math.min(...near.flatMap((one) => [one.before, one.after]));
		// A change for good is followed by none: what comes after it is the new standard.
		const isAhead = after > least && near.some((one) => one.at > at && one.after < after);
		return observance(isAhead, localValue(at + before), before, after);
	});
	const opening = observance(false, wallValue({ day: first, minute: 0 }), start, start);
	return component('VTIMEZONE', [['TZID', name]], [opening, ...observances]);
}

function observance(isAhead: boolean, start: string, before: number, after: number): string {
	return component(isAhead ? 'DAYLIGHT' : 'STANDARD', [
		['DTSTART', start],
		['TZOFFSETFROM', offsetValue(before)],
		['TZOFFSETTO', offsetValue(after)],
		['TZNAME', offsetValue(after)]
	]);
}

/** Seconds of wall-clock time since 1970-01-01T00:00:00 as a value. */
function localValue(local: number): string {
	return new Date(local * 1000).toISOString().slice(0, 19).replaceAll(/[-:]/g, '');
}

/** `-0600`; with seconds where the offset has some. */
function offsetValue(seconds: number): string {
	const whole = Math.abs(seconds);
	const parts = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
	const digits = (whole % 60 === 0 ? parts.slice(0, 2) : parts).map((part) => String(part).padStart(2, '0'));
	return `${seconds < 0 ? '-' : '+'}${digits.join('')}`;
}
