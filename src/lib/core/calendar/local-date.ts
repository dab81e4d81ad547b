/** A calendar date `YYYY-MM-DD` that exists (ISO 8601, proleptic Gregorian, years 0001 to 9999). */
export type LocalDate = string & { readonly __brand: 'LocalDate' };

/** Days since 1970-01-01, the date as a whole number. */
export type EpochDay = number & { readonly __brand: 'EpochDay' };

export type Weekday = 'mon' | 'tue' | 'wed' | 'thu' | 'fri' | 'sat' | 'sun';

/** The days of the week in the order of ISO 8601, Monday first. */
export const weekdays: readonly Weekday[] = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

const form = /^(\d{4})-(\d{2})-(\d{2})$/;

/** True for text that is a date which exists: `2027-02-29` is none. */
export function isLocalDate(text: string): text is LocalDate {
	const match = form.exec(text);
	if (!match) return false;
	const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
	return year >= 1 && month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month);
}

/** Takes text for a date; throws when there is no such date. For text from outside, ask `isLocalDate` first. */
export function localDate(text: string): LocalDate {
	if (!isLocalDate(text)) throw new RangeError(`${JSON.stringify(text)} is no date like 2027-01-04`);
	return text;
}

/** Days in a month (1 to 12) of a year, in the Gregorian calendar. */
export function daysInMonth(year: number, month: number): number {
	if (month === 2) return isLeapYear(year) ? 29 : 28;
	return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/** True for a leap year of the Gregorian calendar. */
export function isLeapYear(year: number): boolean {
	return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

/** The whole number of a date: days since 1970-01-01. */
export function epochDayOf(date: LocalDate): EpochDay {
	return epochDayFrom(Number(date.slice(0, 4)), Number(date.slice(5, 7)), Number(date.slice(8, 10)));
}

/**
 * Days since 1970-01-01 of a year, month (1 to 12) and day of the Gregorian calendar.
 * Counts in years that begin in March, so that the leap day comes last. Our own arithmetic, checked against Temporal.
 */
export function epochDayFrom(year: number, month: number, day: number): EpochDay {
	const marchYear = month <= 2 ? year - 1 : year;
	const dayOfMarchYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
	const leapDays = Math.floor(marchYear / 4) - Math.floor(marchYear / 100) + Math.floor(marchYear / 400);
	return (marchYear * 365 + leapDays + dayOfMarchYear - 719468) as EpochDay;
}

/** Year, month (1 to 12) and day of a whole-number date. */
export function partsOf(day: EpochDay): { year: number; month: number; day: number } {
	const shifted = day + 719468;
	const era = Math.floor(shifted / 146097);
	const dayOfEra = shifted - era * 146097;
	const yearOfEra = Math.floor(
		(dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365
	);
	const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
	const marchMonth = Math.floor((5 * dayOfYear + 2) / 153);
	const month = marchMonth < 10 ? marchMonth + 3 : marchMonth - 9;
	return {
		year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
		month,
		day: dayOfYear - Math.floor((153 * marchMonth + 2) / 5) + 1
	};
}

/** The date of a whole number of days since 1970-01-01. */
export function dateOf(day: EpochDay): LocalDate {
	const { year, month, day: dayOfMonth } = partsOf(day);
	return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(dayOfMonth).padStart(2, '0')}` as LocalDate;
}

/** The day `days` after (before, if negative) a day. */
export function plusDays(day: EpochDay, days: number): EpochDay {
	return (day + days) as EpochDay;
}

/** The weekday of a date; 1970-01-01 was a Thursday. */
export function weekdayOf(day: EpochDay): Weekday {
	return weekdays[(((day + 3) % 7) + 7) % 7] as Weekday;
}

/**
 * A date some months later (negative: earlier), the day of the month kept, or the last day of the month where it has
 * none. Counted in one step from the date given.
 * @source Regulation (EEC, Euratom) 1182/71, article 3(2)(c); the corresponding date rule of Dodds v Walker [1981] UKHL
 * @example plusMonths('2024-02-29', 36) // '2027-02-28'
 */
export function plusMonths(date: LocalDate, months: number): LocalDate {
	const { year, month, day } = partsOf(epochDayOf(date));
	const monthIndex = year * 12 + (month - 1) + months;
	const [newYear, newMonth] = [Math.floor(monthIndex / 12), (((monthIndex % 12) + 12) % 12) + 1];
	return dateOf(epochDayFrom(newYear, newMonth, Math.min(day, daysInMonth(newYear, newMonth))));
}
