import type { LocalDate } from '../../calendar/local-date';
import type { DateOrder, NumericDate } from './read-date';

/**
 * In which order the dates of one form in a column are to be read. Evidence are the dates that are one only in one
 * order: 13/02/2027 is day first. Nothing else about the form proves anything, not even the dots of 04.01.2027, which
 * are nearly always day first: a list that was put together by hand or by a program may have any order, a wrong one
 * shifts a date by months unseen, and asking costs one answer. A column that proves both orders proves none, unless the
 * one is beyond doubt (19 of 20, of 20 or more) and the other a slip. Then, in this order: what the header says
 * (`TT.MM.JJJJ`), and what is known of the same people (two dates or more that agree with one order and none with the
 * other). Returns undefined where nothing decides.
 */
export function decideOrder(
	dates: readonly NumericDate[],
	header: string,
	known: readonly KnownDate[]
): DateOrder | undefined {
	const votes = { 'day-first': 0, 'month-first': 0, 'year-first': 0 };
	let allYearFirst = true;
	for (const { dayFirst, monthFirst, yearFirst } of dates) {
		if (yearFirst === null) allYearFirst = false;
		if (dayFirst !== null && monthFirst === null) votes['day-first']++;
		if (dayFirst === null && monthFirst !== null) votes['month-first']++;
		if (dayFirst === null && monthFirst === null) votes['year-first']++;
	}
	if (votes['year-first'] > 0 && allYearFirst) return 'year-first';
	const byDates = winner(votes['day-first'], votes['month-first']);
	if (byDates !== 'none') return byDates === 'both' ? undefined : byDates;
	const byHeader = orderInHeader(header);
	if (byHeader) return byHeader;
	let agreeDay = 0;
	let agreeMonth = 0;
	for (const { numeric, date } of known) {
		if (numeric.dayFirst === numeric.monthFirst) continue;
		if (numeric.dayFirst === date) agreeDay++;
		if (numeric.monthFirst === date) agreeMonth++;
	}
	if (agreeDay >= 2 && agreeMonth === 0) return 'day-first';
	if (agreeMonth >= 2 && agreeDay === 0) return 'month-first';
	return undefined;
}

/** A date of the roster, and the date that the document has for the same person. */
export interface KnownDate {
	readonly numeric: NumericDate;
	readonly date: LocalDate;
}

function winner(dayFirst: number, monthFirst: number): 'day-first' | 'month-first' | 'both' | 'none' {
	const all = dayFirst + monthFirst;
	if (all === 0) return 'none';
	const enough = all >= 20 ? all * 0.95 : all;
	return dayFirst >= enough ? 'day-first' : monthFirst >= enough ? 'month-first' : 'both';
}

/** The order that a header names by letters for day and month in English, German, French, Spanish or Polish. */
function orderInHeader(header: string): DateOrder | undefined {
	if (/(?<!\p{L})(?:dd?|tt?|jj?)[./\- ]*mm?[./\- ]*(?:yy|jj|aa|rr)/iu.test(header)) return 'day-first';
	if (/(?<!\p{L})mm?[./\- ]*(?:dd?|tt?|jj?)[./\- ]*(?:yy|jj|aa|rr)/iu.test(header)) return 'month-first';
	return undefined;
}

/**
 * The date that a numeric one is in an order, null where that is none. Without an order, only a date that is one in a
 * single order, or the same in both (05/05/2027), is read.
 */
export function inOrder(numeric: NumericDate, order: DateOrder | undefined): LocalDate | null {
	const { dayFirst, monthFirst, yearFirst } = numeric;
	if (order === 'day-first') return dayFirst;
	if (order === 'month-first') return monthFirst;
	if (order === 'year-first') return yearFirst;
	return dayFirst === null || monthFirst === null || dayFirst === monthFirst ? (dayFirst ?? monthFirst) : null;
}

/** True for a date that can be read in both orders and means a different day in each. */
export function isAmbiguous({ dayFirst, monthFirst }: NumericDate): boolean {
	return dayFirst !== null && monthFirst !== null && dayFirst !== monthFirst;
}
