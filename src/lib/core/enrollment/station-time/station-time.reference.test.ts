import { describe, expect, test } from 'vitest';
import { enrollSite } from '../../../../../tests/support/enroll-site';
import { rolloutSchema } from '../../document/schema';
import { EnrollmentModel } from '../model';
import { estimateByStation } from './by-station';
import { placesFor } from './places';
import { farFromPublished } from './published-figures';
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

describe('a visit far from the others', () => {
	const estimateWith = (minutes: readonly number[]) => {
		const document = enrollSite({
			people: [{ id: 'a' }],
			minutes: [8],
			open: {},
			more: {
				visits: minutes.map((one) => ({ person: 'a', on: '2027-01-11' as never, minutes: one, outcome: 'repeat' }))
			}
		});
		return estimateStationTime(rolloutSchema.parse(document), 0.9).classes[0];
	};

	test('is counted, named, and the estimate without it told', () => {
		const found = estimateWith([9, 7, 8, 240, 9]);
		expect(found?.doubtful).toEqual([3]);
		expect(found?.estimate).toBeCloseTo((40 + 9 + 7 + 8 + 240 + 9) / 10, 12);
		expect(found?.withoutDoubtful).toBeCloseTo((40 + 9 + 7 + 8 + 9) / 9, 12);
	});

	test('is none where all visits agree, however far from what was assumed', () => {
		expect(estimateWith(Array.from({ length: 12 }, (_, index) => 30 + (index % 3)))?.doubtful).toEqual([]);
		expect(estimateWith([])).toMatchObject({ doubtful: [], withoutDoubtful: null, visits: 0, estimate: 8, prior: 8 });
	});
});

test('places: how many appointments of a length a station has room for, by hand', () => {
	const document = enrollSite({
		people: [],
		open: { desk: ['2027-01-11 08:00-09:00', '2027-01-12 08:00-08:50'] },
		minutes: [8],
		turnover: 2,
		grid: 5,
		lanes: 2
	});
	const model = new EnrollmentModel(rolloutSchema.parse(document));
	// Every 10 minutes: 6 and 5 a lane. With 11 minutes every 15: 08:00, 08:15, 08:30, and 08:45 on the first day only.
	expect(placesFor(model, 8)).toBe(22);
	expect(placesFor(model, 11)).toBe(14);
	expect(placesFor(model, 61)).toBe(0);
});

test('stations: how long visits take there beside the estimates of their classes, by hand', () => {
	const visit = (person: string, minutes: number | null, station?: string) => ({
		person,
		on: '2027-01-11' as never,
		minutes,
		outcome: 'enrolled' as const,
		...(station === undefined ? {} : { station })
	});
	const document = enrollSite({
		people: [
			{ id: 'a', captureClass: 'c8' },
			{ id: 'b', captureClass: 'c14' }
		],
		minutes: [8, 14],
		open: { desk: [], van: [] },
		more: {
			visits: [visit('a', 8, 'van'), visit('b', 14, 'van'), visit('a', 8), visit('b', null, 'desk')],
			assumptions: { minutesSpread: 0.25 }
		}
	});
	const rollout = rolloutSchema.parse(document);
	const { classes } = estimateStationTime(rollout, 0.9);
	// All as assumed: each class keeps its estimate, and every factor is 1. The desk has no time that is known.
	expect(estimateByStation(rollout, classes, 0.9)).toMatchObject([
		{ station: 'van', visits: 2, mean: 11, estimate: 1 },
		{ station: null, visits: 1, mean: 8, estimate: 1 }
	]);
	// A fifth longer at five visits, one fifth of which five assumed ones at 1 take away: (5 * 1 + 5 * 1.2) / 10.
	const slow = rolloutSchema.parse({
		...document,
		enrollment: { ...document.enrollment, visits: Array.from({ length: 5 }, () => visit('a', 12, 'van')) }
	});
	expect(estimateStationTime(slow, 0.9).classes[0]?.estimate).toBe(10);
	expect(estimateByStation(slow, estimateStationTime(slow, 0.9).classes, 0.9)[0]?.estimate).toBeCloseTo(1.1, 12);
});

describe('beside published figures', () => {
	const farOf = (minutes: number, assumptions = { noShow: 0.2, failToEnroll: 0.01 }) => {
		const document = enrollSite({ people: [], open: {}, minutes: [minutes], more: { assumptions } });
		return farFromPublished(estimateStationTime(rolloutSchema.parse(document), 0.9)).map(({ of, is }) => [of, is]);
	};

	test('an estimate between half and twice says nothing, beyond it is told', () => {
		expect(farOf(4)).toEqual([]);
		expect(farOf(16)).toEqual([]);
		expect(farOf(3)).toEqual([['minutes', 'less than half']]);
		expect(farOf(17)).toEqual([['minutes', 'more than twice']]);
	});

	test('so is a share', () => {
		expect(farOf(8, { noShow: 0.05, failToEnroll: 0.05 })).toEqual([
			['failToEnroll', 'more than twice'],
			['noShow', 'less than half']
		]);
	});
});
