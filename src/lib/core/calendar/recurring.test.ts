import { describe, expect, it } from 'vitest';
import { epochDayOf, localDate } from './local-date';
import { recurringOf } from './recurring';
import { type Span, spanSetOf } from './spans';
import { Zone } from './zone';

const from = epochDayOf(localDate('2027-01-04'));
const until = epochDayOf(localDate('2027-12-31'));
const zone = new Zone('America/Chicago', from, until);
const midnight = (date: string, later = 0) => zone.midnightOf((epochDayOf(localDate(date)) + later) as typeof from);
const range = { from: midnight('2027-01-04'), to: midnight('2027-12-31', 1) };

/** A stretch of minutes on every date of the year that a test picks, by its number from Monday 4 January on. */
function spansOn(isPicked: (place: number) => boolean, start: number, end: number): Span[] {
	return Array.from({ length: until - from + 1 }, (_, place) => place)
		.filter(isPicked)
		.map((place) => {
			const day = (from + place) as typeof from;
			return { from: zone.instantOf({ day, minute: start }), to: zone.instantOf({ day, minute: end }) };
		});
}

function clausesOf(spans: readonly Span[]): readonly string[] {
	return recurringOf(spanSetOf(spans), zone, range).clauses;
}

// Dates by the Gregorian calendar of 2027: 4 January is a Monday, 52 of them follow to 27 December.
describe('spans in words', () => {
	it('tells what comes back every week by its weekdays, once for all of the horizon', () => {
		expect(clausesOf(spansOn((place) => place % 7 === 0, 360, 420))).toEqual(['Mondays 06:00–07:00, 52 times']);
		expect(clausesOf(spansOn((place) => place % 7 < 5, 1320, 1800))).toEqual([
			'Mondays to Fridays 22:00–06:00, 260 times'
		]);
		expect(clausesOf(spansOn(() => true, 60, 90))).toEqual(['every day 01:00–01:30, 362 times']);
	});

	it('names the first and the last date where it does not fill the horizon, and what is left out', () => {
		expect(clausesOf(spansOn((place) => place % 7 === 0 && place >= 56 && place <= 90, 360, 420))).toEqual([
			'Mondays 06:00–07:00, 5 times from Mon 1 March 2027 until Mon 29 March 2027'
		]);
		expect(clausesOf(spansOn((place) => place % 7 === 0 && place !== 56, 360, 420))).toEqual([
			'Mondays 06:00–07:00, 51 times but not on Mon 1 March 2027'
		]);
	});

	it('joins times of the same dates, and begins a week in its middle', () => {
		const picked = (place: number) => place % 7 < 5 && place >= 2;
		expect(clausesOf([...spansOn(picked, 360, 420), ...spansOn(picked, 1080, 1140)])).toEqual([
			'Mondays to Fridays 06:00–07:00 and 18:00–19:00, 516 times from Wed 6 January 2027'
		]);
	});

	it('tells single dates one by one', () => {
		expect(clausesOf([{ from: midnight('2027-12-25'), to: midnight('2027-12-26') }])).toEqual([
			'on Sat 25 December 2027 00:00–24:00'
		]);
		expect(
			clausesOf([...spansOn((place) => place % 7 === 0, 360, 420), ...spansOn((place) => place === 3, 600, 660)])
		).toEqual(['Mondays 06:00–07:00, 52 times', 'on Thu 7 January 2027 10:00–11:00']);
	});

	it('tells what goes on by its beginning and its end', () => {
		expect(clausesOf([range])).toEqual(['always']);
		expect(clausesOf([{ from: midnight('2027-03-01'), to: range.to }])).toEqual(['from Mon 1 March 2027 on, always']);
		expect(clausesOf([{ from: range.from, to: midnight('2027-03-01') }])).toEqual([
			'until Sun 28 February 2027 24:00, always'
		]);
	});

	it('takes what differs only in its limits for the same', () => {
		const patternFrom = (first: number) =>
			recurringOf(spanSetOf(spansOn((place) => place % 7 === 0 && place >= first, 360, 420)), zone, range).pattern;
		expect(patternFrom(0)).toBe(patternFrom(100));
	});
});
