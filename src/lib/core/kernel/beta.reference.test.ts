import { describe, expect, test } from 'vitest';
import { betaAtMost, logGamma, shareInterval, studentQuantile } from './beta';

test('gamma: (n - 1)! for whole numbers, the root of pi at one half', () => {
	expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.sqrt(Math.PI)), 13);
	expect(logGamma(11)).toBeCloseTo(Math.log(3_628_800), 11);
	expect(logGamma(0.1)).toBeCloseTo(2.252712651734206, 12);
});

test('beta(a, 1) and beta(1, b) are powers', () => {
	for (const x of [0.001, 0.2, 0.5, 0.9, 0.999]) {
		expect(betaAtMost(x, 3, 1)).toBeCloseTo(x ** 3, 13);
		expect(betaAtMost(x, 1, 250)).toBeCloseTo(1 - (1 - x) ** 250, 12);
	}
});

test.each([
	[0, 120, 0, 3.027],
	[2, 120, 0.2025, 5.891],
	[3, 150, 0.4144, 5.733],
	[30, 3000, 0.6757, 1.4245]
])('V-STAT-01, Clopper and Pearson at 95 %%: %i of %i', (count, of, low, high) => {
	const interval = shareInterval(count, of, 0.95);
	expect(100 * interval.low).toBeCloseTo(low, 3);
	expect(100 * interval.high).toBeCloseTo(high, 3);
});

describe("Student's t (tables in any textbook; Fisher and Yates)", () => {
	test.each([
		[0.975, 1, 12.706],
		[0.975, 4, 2.776],
		[0.95, 9, 1.833],
		[0.995, 30, 2.75],
		[0.975, 120, 1.98]
	])('%f with %i degrees of freedom', (chance, freedom, t) => {
		expect(studentQuantile(chance, freedom)).toBeCloseTo(t, 3);
	});
});
