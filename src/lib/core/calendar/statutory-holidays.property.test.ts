import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dateOf, type EpochDay, epochDayOf, localDate } from './local-date';
import { statutoryHolidays } from './statutory-holidays';

const place = fc.constantFrom(
	{ country: 'US', region: 'IL', holidayArea: null },
	{ country: 'GB', region: 'SCT', holidayArea: null },
	{ country: 'DE', region: 'BY', holidayArea: 'KATH' },
	{ country: 'AU', region: 'NSW', holidayArea: null },
	{ country: 'TR', region: null, holidayArea: null }
);
const first = epochDayOf(localDate('2026-01-01'));
const day = fc.integer({ min: first, max: first + 1500 }).map((number) => dateOf(number as EpochDay));

test('days are in order, each date once, and those of a range are the days of a longer one that lie in it', () => {
	const [from, until] = [localDate('2025-12-31'), localDate('2030-12-31')];
	fc.assert(
		fc.property(place, day, day, (where, a, b) => {
			const [start, end] = a <= b ? [a, b] : [b, a];
			const found = statutoryHolidays(where, start, end);
			const dates = found.map(({ date }) => date);
			expect(dates).toEqual([...new Set(dates)].sort());
			const all = statutoryHolidays(where, from, until);
			expect(found).toEqual(all.filter(({ date }) => date >= start && date <= end));
		}),
		{ numRuns: 30 }
	);
});
