import { describe, expect, test } from 'vitest';
import { localDate } from '$lib/core/calendar/local-date';
import { kindMarks, kindsOf, stripColumns, yearStrip } from './year-strip';

const horizon = (from: string, until: string) => ({ from: localDate(from), until: localDate(until) });

describe('the strip', () => {
	test('holds every date of the horizon once, in order', () => {
		const dates = yearStrip(horizon('2027-01-04', '2028-12-31'), [], null).flatMap((month) => month.dates);
		expect(dates).toHaveLength(362 + 366);
		expect(dates[0]?.date).toBe('2027-01-04');
		expect(dates.at(-1)?.date).toBe('2028-12-31');
		expect(dates.map((one) => one.date)).toEqual(dates.map((one) => one.date).sort());
	});

	test('weekdays stand below each other, and a month fits', () => {
		for (const month of yearStrip(horizon('2020-01-01', '2029-12-31'), [], null)) {
			for (const one of month.dates) {
				// Date of the standard library, an independent calendar; 0 is Sunday there.
				const weekday = (new Date(`${one.date}T00:00:00Z`).getUTCDay() + 6) % 7;
				expect(one.column % 7).toBe(weekday);
				expect(one.isWeekend).toBe(weekday > 4);
				expect(one.column).toBeLessThan(stripColumns);
			}
		}
	});

	test('a month that begins within the horizon keeps its columns', () => {
		// 4 January 2027 is a Monday, the first a Friday: column 4, so the fourth stands in column 7.
		expect(yearStrip(horizon('2027-01-04', '2027-01-31'), [], null)[0]?.dates[0]?.column).toBe(7);
	});

	test('the first of two entries for a date counts, and the date is told', () => {
		const day = (name: string) => ({ date: '2027-07-05', name, kind: 'public' });
		const dates = yearStrip(horizon('2027-07-01', '2027-07-31'), [day('Observed'), day('Again')], null)[0]?.dates;
		const found = dates?.find((one) => one.date === '2027-07-05');
		expect([found?.holiday?.name, found?.isRepeated]).toEqual(['Observed', true]);
	});

	test('dates behind the end of the record are a gap; with no record all are', () => {
		const gap = (until: string | null) =>
			yearStrip(horizon('2027-01-01', '2027-01-31'), [], until === null ? null : localDate(until))
				.flatMap((month) => month.dates)
				.filter((one) => one.isUncovered).length;
		expect([gap('2027-01-31'), gap('2027-01-30'), gap('2026-12-31'), gap(null)]).toEqual([0, 1, 31, 31]);
	});
});

describe('marks of kinds', () => {
	test('kinds have different letters', () => {
		expect(kindMarks(['public', 'shutdown', 'plant', 'p']).map((mark) => mark.letter)).toEqual(['P', 'S', 'L', '1']);
	});

	test('kinds of holidays come first, then those that only schedules name', () => {
		expect(kindsOf([{ date: '2027-01-01', name: '', kind: 'public' }], [['shutdown', 'public']])).toEqual([
			'public',
			'shutdown'
		]);
	});
});
