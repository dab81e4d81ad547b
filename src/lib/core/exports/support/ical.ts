import { type EpochDay, type Weekday, dateOf, plusDays } from '../../calendar/local-date';
import type { WallTime } from '../../calendar/local-date-time';
import type { Instant } from '../../calendar/zone';
import { plainOf } from './plain-name';

/**
 * iCalendar written by hand, where the library that the project writes calendars with has no words for it: wall-clock times of
 * a zone with its VTIMEZONE, and series with exceptions. It reads times off the machine's own `Date`.
 */

/** A property with its parameters before the colon, and its value already in the form of its type. */
export type Line = readonly [name: string, value: string];

/** A component with its properties and what stands inside it. */
export function component(name: string, lines: readonly Line[], inside: readonly string[] = []): string {
	return [
		`BEGIN:${name}`,
		...lines.map(([property, value]) => folded(`${property}:${value}`)),
		...inside,
		`END:${name}`
	].join('\r\n');
}

/** A calendar as a file; its method says what is done with what is inside (RFC 5546, section 3.2). */
export function calendarFile(
	name: string,
	about: string,
	inside: readonly string[],
	method: 'PUBLISH' | 'REQUEST' | 'CANCEL' = 'PUBLISH'
): string {
	const lines: Line[] = [
		['VERSION', '2.0'],
		['PRODID', '-//Doorwright//Schedules and holidays//EN'],
		['CALSCALE', 'GREGORIAN'],
		['METHOD', method],
		['NAME', textValue(name)],
		['X-WR-CALNAME', textValue(name)],
		['DESCRIPTION', textValue(about)]
	];
	return `${component('VCALENDAR', lines, inside)}\r\n`;
}

/**
 * Text as a value.
 * @source RFC 5545, section 3.3.11
 */
export function textValue(text: string): string {
	return text.replaceAll(/[\\;,]/g, '\\$&').replaceAll(/\r\n|[\r\n]/g, '\\n');
}

/** Weekdays as a recurrence names them. */
export const weekdayValues: Readonly<Record<Weekday, string>> = {
	mon: 'MO',
	tue: 'TU',
	wed: 'WE',
	thu: 'TH',
	fri: 'FR',
	sat: 'SA',
	sun: 'SU'
};

/** `20270104` */
export function dateValue(day: EpochDay): string {
	return dateOf(day).replaceAll('-', '');
}

/** `20270104T070000`, on a later date for minutes from 1440 on. */
export function wallValue({ day, minute }: WallTime): string {
	const inDay = ((minute % 1440) + 1440) % 1440;
	const digits = [Math.floor(inDay / 60), inDay % 60].map((part) => String(part).padStart(2, '0')).join('');
	return `${dateValue(plusDays(day, Math.floor(minute / 1440)))}T${digits}00`;
}

/** `20270104T130000Z` */
export function instantValue(at: Instant): string {
	return `${new Date(at * 1000).toISOString().slice(0, 19).replaceAll(/[-:]/g, '')}Z`;
}

/** A UID that stays the same from one export to the next. */
export function uidOf(site: string, ...parts: readonly string[]): string {
	return `${parts.map(plainOf).join('.')}@${plainOf(site)}.doorwright.invalid`;
}

/**
 * A line of more than 75 octets in several, each but the first beginning with a space; no character is cut in two.
 * @source RFC 5545, section 3.1
 */
function folded(line: string): string {
	const encoder = new TextEncoder();
	const parts: string[] = [];
	let [part, octets] = ['', 0];
	for (const character of line) {
		const size = encoder.encode(character).length;
		if (octets + size > 75) {
			parts.push(part);
			[part, octets] = ['', 1];
		}
		part += character;
		octets += size;
	}
	return [...parts, part].join('\r\n ');
}
