import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readStretch } from '$lib/core/calendar/stretch';
import { stretchText } from './week';
import { type Grip, added, copied, fullWeek, moved, movedToDay, removed, snapped } from './week-moves';

const week = fullWeek({ mon: ['07:00-19:00'], tue: ['22:00-06:00'] });
const monday = { day: 0, place: 0 };
const tuesday = { day: 1, place: 0 };

describe('moving a stretch', () => {
	test('whole, by its start and by its end', () => {
		expect(moved(week, monday, 'whole', 30).mon).toEqual(['07:30-19:30']);
		expect(moved(week, monday, 'start', -60).mon).toEqual(['06:00-19:00']);
		expect(moved(week, monday, 'end', 15).mon).toEqual(['07:00-19:15']);
	});

	test('an end is moved past midnight, and back', () => {
		const night = moved(week, monday, 'end', 8 * 60);
		expect(night.mon).toEqual(['07:00-03:00']);
		expect(moved(night, monday, 'end', -8 * 60).mon).toEqual(['07:00-19:00']);
	});

	test('midnight is written as 24:00 when it is an end', () => {
		expect(moved(week, monday, 'end', 5 * 60).mon).toEqual(['07:00-24:00']);
	});

	test('a start stays in its day and a night keeps its length', () => {
		expect(moved(week, tuesday, 'whole', 180).tue).toEqual(['23:55-07:55']);
		expect(moved(week, monday, 'whole', -1000).mon).toEqual(['00:00-12:00']);
	});

	test('whatever is moved, a stretch that can be read comes out', () => {
		const grip = fc.constantFrom<Grip>('start', 'end', 'whole');
		fc.assert(
			fc.property(
				fc.integer({ min: 0, max: 1439 }),
				fc.integer({ min: 1, max: 1440 }),
				grip,
				fc.integer({ min: -3000, max: 3000 }),
				(from, length, part, minutes) => {
					const text = moved(fullWeek({ mon: [stretchText(from, from + length)] }), monday, part, minutes).mon[0] ?? '';
					const read = readStretch(text);
					expect(read).toBeDefined();
					if (read && part === 'start') expect(read.to % 1440).toBe((from + length) % 1440);
					if (read && part === 'end') expect(read.from).toBe(from);
					if (read && part === 'whole') expect(read.to - read.from).toBe(length);
				}
			)
		);
	});

	test('a stretch that is very short already is not turned round', () => {
		const short = fullWeek({ mon: ['00:00-00:01'] });
		expect(moved(short, monday, 'start', 30).mon).toEqual(['00:00-00:01']);
		expect(moved(short, monday, 'end', 0).mon).toEqual(['00:00-00:05']);
	});

	test('what is not there is not moved', () => {
		expect(moved(week, { day: 3, place: 0 }, 'whole', 30)).toBe(week);
	});
});

test('to another day, after what stands there', () => {
	const { week: next, held } = movedToDay(week, monday, 1);
	expect(next.mon).toEqual([]);
	expect(next.tue).toEqual(['22:00-06:00', '07:00-19:00']);
	expect(held).toEqual({ day: 1, place: 1 });
	expect(movedToDay(week, monday, 7)).toEqual({ week, held: monday });
});

test('added, removed, copied', () => {
	expect(added(week, 0, 1200, 1320).week.mon).toEqual(['07:00-19:00', '20:00-22:00']);
	expect(removed(week, monday).mon).toEqual([]);
	expect(copied(week, 'mon', ['wed', 'thu'])).toEqual({ ...week, wed: ['07:00-19:00'], thu: ['07:00-19:00'] });
});

test('minutes snap to the nearest step', () => {
	expect([snapped(427, 15), snapped(428, 15), snapped(0, 15)]).toEqual([420, 435, 0]);
});
