import { type LocalDate, daysInMonth } from '../../calendar/local-date';
import { type DateSystem, serialDate } from '../workbook/serial-date';
import { isWeekdayWord, monthOf } from './month-names';

/** The order of the numbers in a date that is no ISO date. */
export type DateOrder = 'day-first' | 'month-first' | 'year-first';

/** A date in numbers, whose order is not known from the cell alone. `form` is the character between the numbers. */
export interface NumericDate {
	readonly form: string;
	/** What each order makes of it; null where that is no date. */
	readonly dayFirst: LocalDate | null;
	readonly monthFirst: LocalDate | null;
	/** Only where the year has two digits: 98/03/15. */
	readonly yearFirst: LocalDate | null;
}

/** What a cell says as a date. */
export type DateReading =
	| { readonly kind: 'date'; readonly date: LocalDate }
	| { readonly kind: 'numeric'; readonly numeric: NumericDate }
	| { readonly kind: 'invalid'; readonly why: string };

/**
 * Reads a cell as a date: ISO 8601 and other forms with a four-digit year in front; day, month and year in numbers; with
 * the month's name, in English, German, French, Spanish or Polish. A weekday in front and a time of day behind are passed
 * over. A year of two digits means 1969 to 1999 or 2000 to 2049; 50 to 68 could be either century and is not read. A
 * spreadsheet's number for a day is read only where the workbook tells which of the two date systems it counts by.
 * @source ISO 8601; two-digit years: POSIX strptime, `%y` (69 to 99 are the 1900s), with our own limit of 2049
 */
export function readDate(cell: string, dateSystem?: DateSystem): DateReading {
	const text = withoutTime(withoutWeekday(cell));
	if (text === undefined) {
		return invalid('This time has an offset, so that the date depends on the place.');
	}
	const numbers = /^(\d{1,4})([./\-\s])\s*(\d{1,2})\2\s*(\d{1,4})\.?$/.exec(text);
	if (numbers) return fromNumbers(numbers[1] ?? '', numbers[2] ?? '', numbers[3] ?? '', numbers[4] ?? '');
	const compact = /^((?:19|20)\d\d)(\d\d)(\d\d)$/.exec(text);
	if (compact) return fixed(Number(compact[1]), Number(compact[2]), Number(compact[3]));
	const named = fromNamed(text);
	if (named) return named;
	if (/^\d{5}(?:[.,]\d+)?$/.test(text)) {
		const date = dateSystem && serialDate(Math.floor(Number(text.replace(',', '.'))), dateSystem);
		if (date !== undefined) return { kind: 'date', date: date as LocalDate };
		return invalid(
			"This is a spreadsheet's number for a day, not a date; format the column as a date and export it again."
		);
	}
	return invalid('This is no date that can be read.');
}

/** True for a cell that is meant as a date, whether or not there is such a date. */
export function looksLikeDate(cell: string): boolean {
	if (!/\d/.test(cell) || cell.length > 40) return false;
	const reading = readDate(cell);
	return reading.kind !== 'invalid' || /^\d{1,4}[./-]\d{1,2}[./-]\d{1,4}(?:\s|T|$)/.test(cell);
}

function invalid(why: string): DateReading {
	return { kind: 'invalid', why };
}

const noSuchDate = 'There is no such date.';

function fixed(year: number, month: number, day: number): DateReading {
	const date = dateFrom(year, month, day);
	return date === null ? invalid(noSuchDate) : { kind: 'date', date };
}

function dateFrom(year: number, month: number, day: number): LocalDate | null {
	if (year < 1900 || year > 9999 || month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return null;
	return `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}` as LocalDate;
}

/** The year that its digits mean; undefined where they do not tell the century. */
function yearOf(digits: string): number | undefined {
	if (digits.length === 4) return Number(digits);
	if (digits.length !== 2) return undefined;
	const year = Number(digits);
	return year >= 69 ? 1900 + year : year <= 49 ? 2000 + year : undefined;
}

function fromNumbers(first: string, form: string, second: string, third: string): DateReading {
	if (first.length === 4) {
		return third.length <= 2 ? fixed(Number(first), Number(second), Number(third)) : invalid(noSuchDate);
	}
	if (first.length === 3 || third.length === 3 || third.length === 1)
		return invalid('This is no date that can be read.');
	const year = yearOf(third);
	const [a, b] = [Number(first), Number(second)];
	const dayFirst = year === undefined ? null : dateFrom(year, b, a);
	const monthFirst = year === undefined ? null : dateFrom(year, a, b);
	const front = first.length === 2 && third.length === 2 ? yearOf(first) : undefined;
	const yearFirst = front === undefined ? null : dateFrom(front, b, Number(third));
	if (dayFirst === null && monthFirst === null && yearFirst === null) {
		return invalid(year === undefined ? 'The year has two digits, and they do not tell the century.' : noSuchDate);
	}
	return { kind: 'numeric', numeric: { form, dayFirst, monthFirst, yearFirst } };
}

/** The text without a weekday in front: `Mo, 04.01.2027`. */
function withoutWeekday(text: string): string {
	const match = /^(\p{L}{2,12})\.?,?\s+(?=\S*\d|\p{L}+\.?\s+\d)/u.exec(text);
	if (!match) return text;
	const word = plain(match[1] ?? '');
	// `mar` is Tuesday in French and Spanish and March in most: a month where a day and a year follow.
	if (
		!isWeekdayWord(word) ||
		(monthOf(word) !== undefined && /^\d{1,2}(?:st|nd|rd|th)?[.,]?\s+\d{2,4}$/.test(text.slice(match[0].length)))
	) {
		return text;
	}
	return text.slice(match[0].length);
}

const timeBehind =
	/(?<=\d)(?:T|,?\s+)(\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?)\s*([ap]\.?m\.?)?\s*(Z|UTC|GMT|[+-]\d{2}:?\d{2})?$/i;

/** The text without a time of day behind; undefined where the time has an offset and is not midnight. */
function withoutTime(text: string): string | undefined {
	const match = timeBehind.exec(text);
	if (!match) return text;
	if (match[3] !== undefined && !/^0?0:00(?::00(?:[.,]0+)?)?$/.test(match[1] ?? '')) return undefined;
	return text.slice(0, match.index);
}

const ordinal = /^(\d{1,2})(?:st|nd|rd|th|er|e|ter|º|o)?$/;
const between = new Set(['de', 'del', 'of', 'the', 'le', 'r', 'den', 'el']);

/** `4 January 2027`, `January 4th, 2027`, `1er février 2027`, `4 de enero de 2027`, `04-Jan-27`, `2027 Jan 4`. */
function fromNamed(text: string): DateReading | undefined {
	if (!/\p{L}/u.test(text)) return undefined;
	const parts = plain(text)
		.split(/[\s.,/'’-]+/)
		.filter((part) => part !== '' && !between.has(part));
	if (parts.length !== 3) return undefined;
	const [first = '', second = '', third = ''] = parts;
	const inMiddle = monthOf(second);
	if (inMiddle !== undefined) {
		if (/^\d{4}$/.test(first) && /^\d{1,2}$/.test(third)) return fixed(Number(first), inMiddle, Number(third));
		return withDay(inMiddle, first, third);
	}
	const inFront = monthOf(first);
	return inFront === undefined || /^[ivx]+$/.test(first) ? undefined : withDay(inFront, second, third);
}

function withDay(month: number, dayText: string, yearText: string): DateReading | undefined {
	const day = ordinal.exec(dayText)?.[1];
	if (day === undefined || !/^(?:\d{2}|\d{4})$/.test(yearText)) return undefined;
	const year = yearOf(yearText);
	if (year === undefined) return invalid('The year has two digits, and they do not tell the century.');
	return fixed(year, month, Number(day));
}

/** Small letters without accents. */
function plain(text: string): string {
	return text.toLowerCase().normalize('NFD').replace(/\p{M}/gu, '').replaceAll('ł', 'l');
}
