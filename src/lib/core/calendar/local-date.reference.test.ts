import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import {
	type EpochDay,
	dateOf,
	epochDayOf,
	isLocalDate,
	localDate,
	plusDays,
	plusMonths,
	weekdayOf,
	weekdays
} from './local-date';

const first = Temporal.PlainDate.from('0001-01-01');
const lastDay = Temporal.PlainDate.from('1970-01-01').until('9999-12-31', { largestUnit: 'day' }).days;
const firstDay = Temporal.PlainDate.from('1970-01-01').until(first, { largestUnit: 'day' }).days;
const anyDay = fc.integer({ min: firstDay, max: lastDay });

function temporalDate(day: number): Temporal.PlainDate {
	return Temporal.PlainDate.from('1970-01-01').add({ days: day });
}

describe('Temporal (library temporal-polyfill), ISO 8601 calendar', () => {
	it('the date of a number of days, and back, from year 1 to year 9999', () => {
		fc.assert(
			fc.property(anyDay, (day) => {
				const date = dateOf(day as EpochDay);
				expect(date).toBe(temporalDate(day).toString());
				expect(epochDayOf(date)).toBe(day);
			}),
			{ numRuns: 2000 }
		);
	});

	it('each date of two leap years, a common year and a century', () => {
		for (const year of [2024, 2027, 2028, 1900, 2000, 2100]) {
			const start = epochDayOf(localDate(`${year}-01-01`));
			const days = Temporal.PlainDate.from(`${year}-01-01`).daysInYear;
			for (let day = 0; day < days; day++) {
				expect(dateOf(plusDays(start, day))).toBe(temporalDate(start + day).toString());
			}
			expect(dateOf(plusDays(start, days))).toBe(`${year + 1}-01-01`);
		}
	});

	it('weekdays', () => {
		fc.assert(
			fc.property(anyDay, (day) => {
				expect(weekdays.indexOf(weekdayOf(day as EpochDay)) + 1).toBe(temporalDate(day).dayOfWeek);
			})
		);
	});

	it('months later and earlier, the day kept or the last of the month (overflow: constrain)', () => {
		fc.assert(
			fc.property(fc.integer({ min: -100_000, max: 100_000 }), fc.integer({ min: -600, max: 600 }), (day, months) => {
				const expected = temporalDate(day).add({ months }, { overflow: 'constrain' });
				expect(plusMonths(dateOf(day as EpochDay), months)).toBe(expected.toString());
			}),
			{ numRuns: 2000 }
		);
	});

	it('which text is a date that exists', () => {
		const number = (max: number, width: number) =>
			fc.integer({ min: 0, max }).map((value) => String(value).padStart(width, '0'));
		fc.assert(
			fc.property(number(2400, 4), number(14, 2), number(33, 2), (year, month, day) => {
				const text = `${year}-${month}-${day}`;
				let exists = Number(year) >= 1;
				try {
					Temporal.PlainDate.from(text);
				} catch {
					exists = false;
				}
				expect(isLocalDate(text)).toBe(exists);
			}),
			{ numRuns: 2000 }
		);
	});

	it.each(['2027-1-4', '2027-01-04 ', '+002027-01-04', '20270104', '2027-01-04T00:00', '', '2027-W01-1', '0000-01-01'])(
		'%j is not the one form of a date',
		(text) => {
			expect(isLocalDate(text)).toBe(false);
			expect(() => localDate(text)).toThrow(RangeError);
		}
	);
});

describe('Regulation (EEC, Euratom) 1182/71, article 3(2)(c): the last day of the month where it has no such day', () => {
	it.each([
		['2024-02-29', 36, '2027-02-28'],
		['2024-02-29', 48, '2028-02-29'],
		['2027-01-31', 1, '2027-02-28'],
		['2027-08-31', 6, '2028-02-29'],
		['2027-03-31', -1, '2027-02-28']
	])('%s and %i months: %s', (date, months, expected) => {
		expect(plusMonths(localDate(date), months)).toBe(expected);
	});
});
