import { type EpochDay, type LocalDate, dateOf, epochDayOf, isLocalDate } from './local-date';
import { clockText } from './stretch';

/** A local date-time `2027-01-11T08:00` that exists on the calendar (a clock change may still skip it). */
export type LocalDateTime = string & { readonly __brand: 'LocalDateTime' };

/** Date and minute after local midnight of a wall-clock time. */
export interface WallTime {
	readonly day: EpochDay;
	readonly minute: number;
}

const clock = /^([01]\d|2[0-3]):([0-5]\d)$/;

/** True for text like `2027-01-11T08:00`: an existing date, hours 00 to 23, no seconds, no offset. */
export function isLocalDateTime(text: string): text is LocalDateTime {
	return text.length === 16 && text[10] === 'T' && isLocalDate(text.slice(0, 10)) && clock.test(text.slice(11));
}

/** Date and minute of a local date-time. */
export function wallTimeOf(text: LocalDateTime): WallTime {
	return {
		day: epochDayOf(text.slice(0, 10) as LocalDate),
		minute: Number(text.slice(11, 13)) * 60 + Number(text.slice(14, 16))
	};
}

/** A wall-clock time as text; minutes from 1440 on are those of later dates. */
export function localDateTimeOf({ day, minute }: WallTime): LocalDateTime {
	const days = Math.floor(minute / 1440);
	return `${dateOf((day + days) as EpochDay)}T${clockText(minute - days * 1440)}` as LocalDateTime;
}
