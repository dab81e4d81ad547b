import { describe, expect, test } from 'vitest';
import { enrollSite } from '../../../../../tests/support/enroll-site';
import { rolloutSchema } from '../../document/schema';
import { assumedCountsFor, estimateMean, estimateShare, estimateStationTime, minutesOfStages } from './station-time';

const stages = {
	identityMinutes: 1,
	noticeMinutes: 2.5,
	fingers: 2,
	attempts: 1.39,
	secondsPerAttempt: 30,
	doorTestMinutes: 1
};

test('V-ENR-01: with 1.39 attempts a finger, two fingers of half a minute each take 1.39 minutes', () => {
	expect(minutesOfStages(stages)).toBeCloseTo(1 + 2.5 + 1.39 + 1, 12);
});

describe('a mean, shrunk toward what was assumed', () => {
	test('is what was assumed where nothing was seen', () => {
		expect(estimateMean(8, 0.25, [], 0.9).estimate).toBe(8);
	});

	test('lies between what was assumed and what was seen, and comes to the latter', () => {
		const seen = Array.from({ length: 5 }, () => 12);
		expect(estimateMean(8, 0.25, seen, 0.9).estimate).toBe(10);
		expect(
			estimateMean(
				8,
				0.25,
				Array.from({ length: 5000 }, () => 12),
				0.9
			).estimate
		).toBeCloseTo(12, 2);
	});

	test('by hand: 8 assumed (for 5), 10, 11 and 12 seen', () => {
		// Mean (40 + 33) / 8; squares 5 * 4 + 2 + 15/8 * 9 = 38.875; t(0.95; 8) = 1.8595.
		const { estimate, low, high } = estimateMean(8, 0.25, [10, 11, 12], 0.9);
		expect(assumedCountsFor.times).toBe(5);
		expect(estimate).toBeCloseTo(9.125, 12);
		expect(high - estimate).toBeCloseTo(1.8595 * Math.sqrt(38.875 / 8 / 8), 3);
		expect(estimate - low).toBeCloseTo(high - estimate, 12);
	});
});

describe('a share', () => {
	test('comes to what was seen, and its interval to that of the normal distribution', () => {
		const { estimate, low, high } = estimateShare(0.08, 20_000, 100_000, 0.95);
		expect(estimate).toBeCloseTo(0.2, 3);
		expect((high - low) / 2).toBeCloseTo(1.96 * Math.sqrt((0.2 * 0.8) / 100_000), 4);
	});

	test('one that was assumed to be 0 is not 0 for ever', () => {
		expect(estimateShare(0, 0, 0, 0.9).low).toBeGreaterThan(0);
		expect(estimateShare(0, 5, 20, 0.9).low).toBeGreaterThan(0.05);
	});
});

test('visits are told apart by class and by how they ended', () => {
	const document = enrollSite({
		people: ['a', 'b', 'c', 'd'].map((id) => ({ id, captureClass: id === 'd' ? 'c14' : 'c8' })),
		minutes: [8, 14],
		open: {},
		more: {
			visits: [
				{ person: 'a', on: '2027-01-11' as never, minutes: 10, outcome: 'repeat' },
				{ person: 'a', on: '2027-01-12' as never, minutes: 6, outcome: 'enrolled' },
				{ person: 'b', on: '2027-01-11' as never, outcome: 'no-show' },
				{ person: 'c', on: '2027-01-11' as never, minutes: 9, outcome: 'failed' },
				{ person: 'd', on: '2027-01-11' as never, outcome: 'enrolled' }
			]
		}
	});
	const found = estimateStationTime(rolloutSchema.parse(document), 0.9);
	expect(found.classes).toMatchObject([
		{ captureClass: 'c8', planned: 8, stages: null, visits: 3, mean: 25 / 3, suggested: 9 },
		{ captureClass: 'c14', planned: 14, visits: 0, mean: null, estimate: 14, suggested: 14 }
	]);
	expect(found.noShow).toMatchObject({ count: 1, of: 5 });
	expect(found.repeatVisit).toMatchObject({ count: 1, of: 3 });
	expect(found.failToEnroll).toMatchObject({ count: 1, of: 3 });
});
