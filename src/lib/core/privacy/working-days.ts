import { type EpochDay, type LocalDate, dateOf, epochDayOf, plusDays, weekdayOf } from '../calendar/local-date';
import type { Holiday } from '../document/schema';

/** Tells whether people work on a day. */
export type WorkingDayTest = (day: EpochDay) => boolean;

/** Monday to Friday, but for these dates. */
export function weekdaysBut(dates: Iterable<LocalDate>): WorkingDayTest {
	const off = new Set<EpochDay>();
	for (const date of dates) off.add(epochDayOf(date));
	return (day) => {
		const weekday = weekdayOf(day);
		return weekday !== 'sat' && weekday !== 'sun' && !off.has(day);
	};
}

/**
 * Days on which the site can act: Monday to Friday, but for every listed holiday whatever its kind. Cautious where a date
 * is brought forward, since a half day or a shutdown may leave nobody to do it.
 */
export function daysToActOn(holidays: readonly Holiday[]): WorkingDayTest {
	return weekdaysBut(holidays.map((holiday) => holiday.date));
}

/**
 * Days to which the law lets a deadline move: Monday to Friday, but for the holidays of kind `public`. Cautious where a
 * date is put off, since a shutdown of the site's own moves no deadline.
 * @source Regulation (EEC, Euratom) 1182/71, article 3(4): public holidays, Sundays and Saturdays
 */
export function officialWorkingDays(holidays: readonly Holiday[]): WorkingDayTest {
	return weekdaysBut(holidays.filter((holiday) => holiday.kind === 'public').map((holiday) => holiday.date));
}

/** The last working day at or before a date: when people must act so that a maximum holds that no weekend moves. */
export function lastWorkingDayAtOrBefore(date: LocalDate, isWorkingDay: WorkingDayTest): LocalDate {
	let day = epochDayOf(date);
	while (!isWorkingDay(day)) day = plusDays(day, -1);
	return dateOf(day);
}

/** The first working day at or after a date: where the deadline of an answer moves to. */
export function firstWorkingDayAtOrAfter(date: LocalDate, isWorkingDay: WorkingDayTest): LocalDate {
	let day = epochDayOf(date);
	while (!isWorkingDay(day)) day = plusDays(day, 1);
	return dateOf(day);
}
