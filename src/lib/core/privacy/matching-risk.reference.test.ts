import { describe, expect, test } from 'vitest';
import {
	doorRisk,
	fallbackNeed,
	falseIdentification,
	halfWidthAt90,
	neededFalseMatchRate,
	testedRate,
	trialsForRuleOf30,
	trialsWithoutError
} from './matching-risk';

/** Vectors of the project's list of facts and standards, by their ids and sections; sources stand there. */

describe('V-ID-01: one finger against many', () => {
	test.each([
		[1e-3, [0.095208, 0.393621, 0.632305, 0.999955]],
		[1e-4, [0.009951, 0.048773, 0.095167, 0.632139]],
		[1e-5, [0.000999505, 0.00498755, 0.00995022, 0.095163]],
		[1e-6, [0.0000999951, 0.000499875, 0.000999501, 0.00995017]]
	])('at a false match rate of %f', (fmr, chances) => {
		[100, 500, 1000, 10_000].forEach((templates, index) => {
			expect(falseIdentification(fmr, templates) / (chances[index] as number)).toBeCloseTo(1, 4);
		});
	});

	test('1 in 1,000 at 1,000 templates asks for 1.0005e-6', () => {
		expect(neededFalseMatchRate(1e-3, 1000) * 1e6).toBeCloseTo(1.0005, 4);
		expect(falseIdentification(neededFalseMatchRate(1e-3, 1000), 1000)).toBeCloseTo(1e-3, 12);
	});

	test('a number of four digits makes it ten thousand times less likely, while it is unlikely', () => {
		const terms = { fmr: 1e-5, people: 100, fingersEach: 2, attempts: 3 };
		const [finger, both] = [doorRisk({ ...terms, pinDigits: 0 }), doorRisk({ ...terms, pinDigits: 4 })];
		expect(finger).toBeCloseTo(1 - (1 - 1e-5) ** 600, 10);
		expect(both / (600 * 1e-9)).toBeCloseTo(1, 5);
	});
});

describe('section 2.6: how large a test must be', () => {
	test.each([
		[100, 2.951],
		[120, 2.466],
		[200, 1.487],
		[300, 0.9936],
		[1000, 0.2991],
		[3000, 0.0998]
	])('%i trials without error: at most %f in a hundred exactly', (trials, percent) => {
		expect(trialsWithoutError(3 / trials).ruleOf3).toBe(trials);
		// One-sided at 95 % is two-sided at 90 %.
		expect(Math.abs(trialsWithoutError(percent / 100).exact - trials)).toBeLessThanOrEqual(Math.max(1, trials / 1000));
	});

	test('rule of 30', () => {
		expect(trialsForRuleOf30(0.01)).toBe(3000);
		expect(trialsForRuleOf30(1e-6)).toBe(30_000_000);
		expect(halfWidthAt90(30)).toBeCloseTo(0.3, 3);
		expect(halfWidthAt90(11)).toBeCloseTo(0.496, 3);
		expect(halfWidthAt90(260)).toBeCloseTo(0.102, 3);
	});

	test('V-STAT-01: 0 of 120 may still be 3.027 %', () => {
		expect(100 * testedRate(0, 120).high).toBeCloseTo(3.027, 3);
	});
});

describe('V-PLAN-04: other credentials to keep in stock', () => {
	test.each([
		[250, 0.02, 5, 0.9936, 9],
		[250, 0.01, 2.5, 0.9189, 5]
	])('%i people at %f', (people, rate, mean, any, p95) => {
		const need = fallbackNeed(people, rate);
		expect(need.mean).toBeCloseTo(mean, 12);
		expect(need.any).toBeCloseTo(any, 4);
		expect(need.p95).toBe(p95);
	});

	test('400 people at 4 %', () => {
		expect(fallbackNeed(400, 0.04)).toMatchObject({ mean: 16, p95: 23 });
	});

	test('a hundred thousand people are no trouble', () => {
		const { mean, p95 } = fallbackNeed(100_000, 0.02);
		expect(mean).toBe(2000);
		expect(p95).toBeGreaterThan(2060);
		expect(p95).toBeLessThan(2090);
	});
});
