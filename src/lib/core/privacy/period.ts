import { type LocalDate, dateOf, epochDayOf, localDate, partsOf, plusDays, plusMonths } from '../calendar/local-date';
import type { Period } from './define-pack';

/** Limits beyond the last date that can be written count as that date. */
const endOfCalendar = localDate('9999-12-31');

/**
 * The last date on which something may be kept that started on a date: a **maximum**. Counted in one step from the start,
 * to the same day of the month or the last one where it has none, and never moved for weekends or holidays.
 * @source Dodds v Walker [1981] 1 WLR 1027 (corresponding date); that 29 February gives 28 February is the cautious side
 * @example latestDate('2024-02-29', { unit: 'months', count: 36 }) // '2027-02-28'
 */
export function latestDate(start: LocalDate, period: Period): LocalDate {
	switch (period.unit) {
		case 'none':
			return start;
		case 'days':
			return period.count > daysLeft(start) ? endOfCalendar : dateOf(plusDays(epochDayOf(start), period.count));
		case 'months':
			return period.count > monthsLeft(start) ? endOfCalendar : plusMonths(start, period.count);
	}
}

/**
 * The first date on which something need no longer be kept that started on a date: a **minimum**. As `latestDate`, but
 * where the month has no such day it is the first day of the month after, since the cautious side is the later one.
 * @source assumption: a minimum clamps the other way from a maximum
 * @example earliestDate('2028-02-29', { unit: 'months', count: 12 }) // '2029-03-01'
 */
export function earliestDate(start: LocalDate, period: Period): LocalDate {
	const date = latestDate(start, period);
	if (period.unit !== 'months' || date === endOfCalendar || date.slice(8) === start.slice(8)) return date;
	return dateOf(plusDays(epochDayOf(date), 1));
}

function daysLeft(start: LocalDate): number {
	return epochDayOf(endOfCalendar) - epochDayOf(start);
}

function monthsLeft(start: LocalDate): number {
	const { year, month } = partsOf(epochDayOf(start));
	return (9999 - year) * 12 + (12 - month);
}
