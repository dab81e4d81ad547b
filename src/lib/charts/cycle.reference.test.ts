import { expect, test } from 'vitest';
import { cycleBars, hoursPerCycle } from './cycle';

test('a night shift goes on in the next day, from the last day into the first', () => {
	expect(cycleBars(2, [{ day: 1, at: '22:00-06:00' }])).toEqual([
		{ day: 1, from: 1320, to: 1440 },
		{ day: 0, from: 0, to: 360 }
	]);
});

test('average hours a week of published patterns (open shift library point85/Shift)', () => {
	const twelve = (days: readonly number[]) => days.map((day) => ({ day, at: day % 2 ? '19:00-07:00' : '07:00-19:00' }));
	const weekly = (cycleDays: number, days: readonly number[]) => (hoursPerCycle(twelve(days)) * 7) / cycleDays;
	expect(weekly(8, [0, 1, 2, 3])).toBe(42);
	expect(weekly(14, [0, 1, 4, 5, 6, 9, 10])).toBe(42);
	expect(weekly(3, [0, 1])).toBe(56);
	expect(weekly(28, [0, 1, 2, 3, 7, 8, 9, 11, 12, 13, 17, 18, 19, 20])).toBe(42);
});
