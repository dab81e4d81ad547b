import { expect, test } from 'vitest';
import { waitStepsOf } from './wait-steps';

const hour = (from: number, waitMinutes: number, waitAtShare: number, queue: number) => ({
	...{ from, to: from + 60, waitMinutes, waitAtShare, queue }
});

test('hours stand side by side, waits grow from the base, and the target lies at its minutes', () => {
	const steps = waitStepsOf([hour(480, 5, 20, 3), hour(540, 0, 0, 0)], 10, 600, 200, 100);
	expect(steps.minutes.map(({ value }) => value)).toEqual([0, 10, 20]);
	expect(steps.hours).toEqual([
		{ from: 480, x: 0, width: 300, mean: 50, atShare: 200, queue: 75, isCut: false },
		{ from: 540, x: 300, width: 300, mean: 0, atShare: 0, queue: 0, isCut: false }
	]);
	expect(steps.target).toBe(100);
});

test('a wait without end reaches the top and is marked, and the scale still shows the target', () => {
	const steps = waitStepsOf([hour(480, Infinity, Infinity, 30)], 10, 600, 200, 100);
	expect(steps.hours[0]).toMatchObject({ mean: 200, atShare: 200, isCut: true });
	expect(steps.target).toBeGreaterThan(0);
});
