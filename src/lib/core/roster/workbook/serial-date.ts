import { type EpochDay, dateOf } from '../../calendar/local-date';

/** From which day a workbook counts its days: 1 is 1 January 1900, or 0 is 1 January 1904. */
export type DateSystem = '1900' | '1904';

const epochDayOf1904 = -24_107;
const epochDayBefore1900 = -25_568;

/**
 * The date of a day's number in a workbook, in ISO form. The 1900 system counts a 29 February 1900 that never was: its
 * number 60 is written as it stands (and is no date), and so is 0, which programs write for "no date". Undefined for a
 * number below 0 or beyond the year 9999.
 * @source ECMA-376 part 1, 18.17.4.1 (serial values: 1 is 1900-01-01, 60 is 1900-02-29; 1904: 0 is 1904-01-01)
 * @example serialDate(46391, '1900') is 2027-01-04; serialDate(44929, '1904') is the same day
 */
export function serialDate(days: number, system: DateSystem): string | undefined {
	if (!Number.isInteger(days) || days < 0) return undefined;
	if (system === '1900' && days === 0) return '1900-01-00';
	if (system === '1900' && days === 60) return '1900-02-29';
	const from = system === '1904' ? epochDayOf1904 : days < 60 ? epochDayBefore1900 : epochDayBefore1900 - 1;
	const epochDay = from + days;
	return epochDay > 2_932_896 ? undefined : dateOf(epochDay as EpochDay);
}

/**
 * A number that is formatted as a date or a time of day, as text: the date, the time behind it where it is not midnight,
 * the time alone where the format shows no date. Undefined where there is no such moment.
 */
export function serialText(serial: number, system: DateSystem, shows: 'date' | 'time'): string | undefined {
	const seconds = Math.round(serial * 86_400);
	const days = Math.floor(seconds / 86_400);
	const rest = seconds - days * 86_400;
	const time = timeText(rest);
	if (shows === 'time' && days === 0) return time;
	const date = serialDate(days, system);
	if (date === undefined) return undefined;
	return rest === 0 ? date : `${date} ${time}`;
}

function timeText(seconds: number): string {
	const two = (value: number): string => String(value).padStart(2, '0');
	const minutes = `${two(Math.floor(seconds / 3600))}:${two(Math.floor(seconds / 60) % 60)}`;
	return seconds % 60 === 0 ? minutes : `${minutes}:${two(seconds % 60)}`;
}
