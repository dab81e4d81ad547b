import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dateOf } from '../../calendar/local-date';
import type { EpochDay } from '../../calendar/local-date';
import { inOrder } from './date-order';
import { monthOf } from './month-names';
import { readDate } from './read-date';

const languages = ['en', 'de', 'fr', 'es', 'pl'];

test('Unicode CLDR, through Intl: every long month name, alone and in a date, is known', () => {
	for (const language of languages) {
		for (let month = 0; month < 12; month++) {
			const day = new Date(Date.UTC(2027, month, 4));
			const alone = new Intl.DateTimeFormat(language, { month: 'long', timeZone: 'UTC' }).format(day);
			expect(monthOf(alone.toLowerCase().normalize('NFD').replace(/\p{M}/gu, '')), `${language} ${alone}`).toBe(
				month + 1
			);
			const style = { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' } as const;
			const date = new Intl.DateTimeFormat(language, style).format(day);
			expect(readDate(date), date).toEqual({ kind: 'date', date: day.toISOString().slice(0, 10) });
		}
	}
});

test('Unicode CLDR, through Intl: dates with short month names are read', () => {
	for (const language of languages) {
		for (let month = 0; month < 12; month++) {
			const day = new Date(Date.UTC(2027, month, 14));
			const style = { day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' } as const;
			const date = new Intl.DateTimeFormat(language, style).format(day);
			expect(readDate(date), date).toEqual({ kind: 'date', date: day.toISOString().slice(0, 10) });
		}
	}
});

test('any date from 1900 on comes back from each numeric form', () => {
	const day = fc.integer({ min: -25_567, max: 60_000 }).map((epochDay) => dateOf(epochDay as EpochDay));
	fc.assert(
		fc.property(day, fc.constantFrom('.', '/', '-'), (date, between) => {
			const [y = '', m = '', d = ''] = date.split('-');
			const dayFirst = readDate([d, m, y].join(between));
			const monthFirst = readDate([m, d, y].join(between));
			expect(dayFirst.kind === 'numeric' && inOrder(dayFirst.numeric, 'day-first')).toBe(date);
			expect(monthFirst.kind === 'numeric' && inOrder(monthFirst.numeric, 'month-first')).toBe(date);
			expect(readDate([y, m, d].join(between))).toEqual({ kind: 'date', date });
		})
	);
});
