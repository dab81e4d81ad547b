import { type LocalDate, type Weekday, epochDayOf, partsOf, weekdayOf } from './local-date';

/** The months in English, January first. */
export const monthNames = [
	'January',
	'February',
	'March',
	'April',
	'May',
	'June',
	'July',
	'August',
	'September',
	'October',
	'November',
	'December'
] as const;

/** The days of the week in English. */
export const weekdayNames: Readonly<Record<Weekday, string>> = {
	mon: 'Monday',
	tue: 'Tuesday',
	wed: 'Wednesday',
	thu: 'Thursday',
	fri: 'Friday',
	sat: 'Saturday',
	sun: 'Sunday'
};

/** A date as people say it, which no order of numbers can confuse: `Mon 4 January 2027`. */
export function dateWords(date: LocalDate): string {
	const { year, month, day } = partsOf(epochDayOf(date));
	const weekday = weekdayNames[weekdayOf(epochDayOf(date))].slice(0, 3);
	return `${weekday} ${day} ${monthNames[month - 1] ?? ''} ${year}`;
}
