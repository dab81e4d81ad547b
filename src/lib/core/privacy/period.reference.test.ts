import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { type EpochDay, dateOf, epochDayOf, localDate, weekdayOf } from '../calendar/local-date';
import { earliestDate, latestDate } from './period';

const months = (date: string, count: number) => latestDate(localDate(date), { unit: 'months', count });
const days = (date: string, count: number) => latestDate(localDate(date), { unit: 'days', count });

describe('months', () => {
	test.each([
		['V-DATE-01, Dodds v Walker [1981] 1 WLR 1027: four months', '1978-09-30', 4, '1979-01-30'],
		['V-DATE-02, E J Riley v Eurostile: two months', '1983-03-23', 2, '1983-05-23'],
		['V-DATE-03', '2027-01-31', 1, '2027-02-28'],
		['V-DATE-04', '2028-01-31', 1, '2028-02-29'],
		['V-DATE-04', '2027-01-31', 3, '2027-04-30'],
		['V-DATE-04', '2027-11-30', 3, '2028-02-29'],
		['V-DATE-04', '2026-11-30', 3, '2027-02-28'],
		['V-DATE-04', '2026-08-31', 6, '2027-02-28'],
		['V-DATE-08, ICO notice of 19 February 2024: three months, a Sunday, not moved', '2024-02-19', 3, '2024-05-19'],
		['V-RET-05a, six months (from memory)', '2026-08-31', 6, '2027-02-28'],
		['V-RET-05b, deliberation 2006-102 article 4: three months', '2026-08-31', 3, '2026-11-30'],
		['V-RET-05c, deliberation 2006-102 article 4: five years', '2024-02-29', 60, '2029-02-28'],
		['V-RET-05d, deliberation 2019-001: three years', '2026-11-25', 36, '2029-11-25']
	])('%s: %s + %i months', (_, start, count, expected) => {
		expect(months(start, count)).toBe(expected);
	});

	test('V-DATE-06: always counted from the first date; month by month loses the last days', () => {
		expect(months('2027-01-31', 2)).toBe('2027-03-31');
		expect(months(months('2027-01-31', 1), 1)).toBe('2027-03-28');
	});

	test('V-RET-07, DPDP Rules 2025 rule 8(3): a minimum of one year from 29 February clamps to the later side', () => {
		const year = { unit: 'months', count: 12 } as const;
		expect(earliestDate(localDate('2028-02-29'), year)).toBe('2029-03-01');
		expect(latestDate(localDate('2028-02-29'), year)).toBe('2029-02-28');
		expect(earliestDate(localDate('2027-01-31'), { unit: 'months', count: 1 })).toBe('2027-03-01');
		expect(earliestDate(localDate('2028-02-28'), year)).toBe('2029-02-28');
	});

	test('as Temporal adds months with the overflow constrained (library temporal-polyfill), a minimum never earlier', () => {
		fc.assert(
			fc.property(fc.integer({ min: -20_000, max: 60_000 }), fc.integer({ min: 0, max: 240 }), (number, count) => {
				const start = dateOf(number as EpochDay);
				const expected = Temporal.PlainDate.from(start).add({ months: count }, { overflow: 'constrain' });
				const period = { unit: 'months', count } as const;
				expect(latestDate(start, period)).toBe(expected.toString());
				const isClamped = expected.day !== Number(start.slice(8));
				expect(earliestDate(start, period)).toBe(expected.add({ days: isClamped ? 1 : 0 }).toString());
			})
		);
	});
});

describe('days', () => {
	test.each([
		['V-RET-03c (from memory): 45 days', '2026-10-31', 45, '2026-12-15'],
		['V-RET-03d (from memory): 45 days', '2027-11-17', 45, '2028-01-01'],
		['V-DATE-07, Toeters C-171/03: three weeks', '1998-03-12', 21, '1998-04-02'],
		['V-DATE-07', '1998-03-13', 21, '1998-04-03'],
		['V-DATE-07', '1998-03-16', 21, '1998-04-06'],
		['V-DATE-07', '1998-01-27', 21, '1998-02-17'],
		['V-DATE-07', '1998-01-28', 21, '1998-02-18']
	])('%s: %s + %i days', (_, start, count, expected) => {
		expect(days(start, count)).toBe(expected);
	});

	test('V-DATE-07: a period in weeks ends on the weekday on which it began', () => {
		const weekday = (date: string) => weekdayOf(epochDayOf(localDate(date)));
		expect(weekday(days('1998-03-12', 21))).toBe(weekday('1998-03-12'));
	});
});

test('a limit beyond the last date that can be written is that date, and still comes after every other', () => {
	expect(days('2027-01-31', Number.MAX_SAFE_INTEGER)).toBe('9999-12-31');
	expect(months('9998-02-28', 36)).toBe('9999-12-31');
	expect(months('9996-12-31', 36)).toBe('9999-12-31');
	expect(months('9996-11-30', 36)).toBe('9999-11-30');
});
