import { describe, expect, test } from 'vitest';
import { changesAround, clockWords, type DayClock, hourMarks, secondOf, shownAt, stretchWords } from './day-clock';

const hour = 3600;
/** Chicago on 2027-11-07: at 02:00 CDT the clock is turned back to 01:00 CST, so the date has 25 hours. */
const back: DayClock = {
	date: '2027-11-07',
	start: Date.parse('2027-11-07T05:00:00Z') / 1000,
	length: 25 * hour,
	offsets: [
		{ from: -24 * hour, offset: -5 * hour },
		{ from: 2 * hour, offset: -6 * hour }
	]
};
/** Chicago on 2027-03-14: at 02:00 CST the clock is put on to 03:00 CDT, so the date has 23 hours. */
const on: DayClock = {
	date: '2027-03-14',
	start: Date.parse('2027-03-14T06:00:00Z') / 1000,
	length: 23 * hour,
	offsets: [
		{ from: -24 * hour, offset: -6 * hour },
		{ from: 2 * hour, offset: -5 * hour }
	]
};

describe('the clock of a date', () => {
	// Dates and hour of the change: 15 U.S.C. 260a(a), second Sunday of March and first of November at 2 a.m.
	test('shows an hour twice where it is turned back, and says which', () => {
		expect(clockWords(back, 1.5 * hour)).toBe('01:30 UTC-05:00 (first time)');
		expect(clockWords(back, 2.5 * hour)).toBe('01:30 UTC-06:00 (second time)');
		expect(clockWords(back, 3 * hour)).toBe('02:00');
		expect(clockWords(back, 25 * hour)).toBe('24:00');
		expect(shownAt(back, 0)).toEqual({ date: '2027-11-07', time: '00:00', offset: 'UTC-05:00', turn: null });
	});

	test('leaves an hour out where it is put on', () => {
		expect(clockWords(on, 2 * hour - 60)).toBe('01:59');
		expect(clockWords(on, 2 * hour)).toBe('03:00');
		expect(hourMarks(on, 1).map(({ words }) => words)).not.toContain('02:00');
		expect(hourMarks(back, 1).filter(({ words }) => words === '01:00')).toHaveLength(2);
		expect(hourMarks(back, 6)).toEqual([
			{ at: 0, words: '00:00' },
			{ at: 7 * hour, words: '06:00' },
			{ at: 13 * hour, words: '12:00' },
			{ at: 19 * hour, words: '18:00' },
			{ at: 25 * hour, words: '24:00' }
		]);
	});

	test('finds the moment of a clock time: of two the one asked for, of none the one by the offset before', () => {
		expect(secondOf(back, 90)).toBe(1.5 * hour);
		expect(secondOf(back, 90, true)).toBe(2.5 * hour);
		expect(secondOf(back, 360)).toBe(7 * hour);
		// RFC 5545, 3.3.5: 02:30 does not exist and is read with the offset before, 03:30.
		expect(clockWords(on, secondOf(on, 150))).toBe('03:30');
	});

	test('tells a stretch, and all of a date', () => {
		expect(stretchWords(on, { from: 0, to: 23 * hour })).toBe('all day');
		expect(stretchWords(on, { from: hour, to: 4 * hour })).toBe('01:00–05:00');
	});
});

test('the changes before and after a moment', () => {
	expect(changesAround([60, 120, 600], 120)).toEqual({ before: 60, after: 600 });
	expect(changesAround([60], 0)).toEqual({ before: null, after: 60 });
	expect(changesAround([], 0)).toEqual({ before: null, after: null });
});
