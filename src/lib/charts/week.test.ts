import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { weekdays } from '$lib/core/calendar/local-date';
import { readStretch } from '$lib/core/calendar/stretch';
import { doubledMinutes, readDay, stretchText, weekBars, weekWords } from './week';

describe('bars of a week', () => {
	test('a day stretch is one bar', () => {
		expect(weekBars({ tue: ['07:00-19:00'] })).toEqual([
			{ day: 1, from: 420, to: 1140, isCarried: false, startDay: 1, place: 0 }
		]);
	});

	test('a night is carried into the next column, from Sunday into Monday', () => {
		expect(weekBars({ sun: ['22:00-06:00'] })).toEqual([
			{ day: 6, from: 1320, to: 1440, isCarried: false, startDay: 6, place: 0 },
			{ day: 0, from: 0, to: 360, isCarried: true, startDay: 6, place: 0 }
		]);
	});

	test('to midnight is not carried', () => {
		expect(weekBars({ mon: ['16:00-24:00', '00:00-24:00'] }).every((bar) => bar.day === 0)).toBe(true);
	});

	test('the bars cover as many minutes as the stretches', () => {
		const text = fc
			.tuple(fc.integer({ min: 0, max: 1439 }), fc.integer({ min: 1, max: 1440 }))
			.map(([from, length]) => stretchText(from, from + length));
		fc.assert(
			fc.property(fc.dictionary(fc.constantFrom(...weekdays), fc.array(text, { maxLength: 3 })), (week) => {
				const written = Object.values(week)
					.flat()
					.map((one) => readStretch(one));
				const minutes = written.reduce((sum, one) => sum + (one ? one.to - one.from : NaN), 0);
				const drawn = weekBars(week);
				expect(drawn.reduce((sum, bar) => sum + bar.to - bar.from, 0)).toBe(minutes);
				expect(drawn.every((bar) => bar.from >= 0 && bar.from < bar.to && bar.to <= 1440)).toBe(true);
			})
		);
	});
});

test('minutes covered twice are found, also where a night runs into the next day', () => {
	expect(doubledMinutes(weekBars({ mon: ['22:00-06:00'], tue: ['05:00-13:00'] }))).toEqual([
		{ day: 1, from: 300, to: 360 }
	]);
	expect(doubledMinutes(weekBars({ mon: ['06:00-14:00', '14:00-22:00'] }))).toEqual([]);
});

describe('a week in words', () => {
	test('days of the same hours stand together', () => {
		const office = ['07:00-19:00'];
		expect(weekWords({ mon: office, tue: office, wed: office, thu: office, fri: office, sat: ['08:00-12:00'] })).toBe(
			'Mon–Fri 07:00–19:00; Sat 08:00–12:00'
		);
	});

	test('a closed week says so', () => {
		expect(weekWords({})).toBe('closed all week');
	});
});

describe('what a person types for a day', () => {
	test.each([
		['07:00-19:00', ['07:00-19:00']],
		['7-19', ['07:00-19:00']],
		['7:30 – 12, 13-16:30', ['07:30-12:00', '13:00-16:30']],
		['0600-1400; 1400-2200', ['06:00-14:00', '14:00-22:00']],
		['22 to 6', ['22:00-06:00']],
		['0-24', ['00:00-24:00']],
		['closed', []],
		['', []]
	])('%s', (typed, stretches) => {
		expect(readDay(typed)).toEqual({ stretches, unread: [] });
	});

	test('all that cannot be read is told, the rest is kept', () => {
		expect(readDay('7-25, 8-12, noon')).toEqual({ stretches: ['08:00-12:00'], unread: ['7-25', 'noon'] });
	});

	test('24:00 is no start', () => {
		expect(readDay('24:00-06:00').unread).toEqual(['24:00-06:00']);
	});
});
