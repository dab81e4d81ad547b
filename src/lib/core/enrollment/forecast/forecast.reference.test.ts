import { describe, expect, test } from 'vitest';
import { enrollSite } from '../../../../../tests/support/enroll-site';
import { type RolloutDocument, rolloutSchema } from '../../document/schema';
import { planEnrollment } from '../plan';
import { type Forecast, forecastEnrollment } from './forecast';

/** Futures whose figures are known in closed form; bounds are five standard errors of the mean. */

const runs = 4000;

const days = (count: number): string[] =>
	Array.from({ length: count }, (_, day) => `2027-02-${String(day + 1).padStart(2, '0')}`);

function site(
	people: number,
	open: readonly string[],
	assumptions: Partial<NonNullable<NonNullable<RolloutDocument['enrollment']>['assumptions']>>,
	seed = 7
): Forecast {
	const document = enrollSite({
		people: Array.from({ length: people }, (_, index) => ({ id: `p${index}`, wave: 'w' })),
		open: { desk: open },
		minutes: [10],
		grid: 10,
		more: { waves: [{ id: 'w', enrollBy: '2027-02-01' as never }], assumptions }
	});
	return forecastEnrollment(rolloutSchema.parse(document), { runs, seed });
}

function waveOf({ waves }: Forecast) {
	const [wave] = waves;
	if (!wave) throw new Error('no wave');
	return wave;
}

describe('without chance (deterministic limit)', () => {
	test('every run is the plan itself', () => {
		const document = rolloutSchema.parse(
			enrollSite({
				people: Array.from({ length: 30 }, (_, index) => ({ id: `p${index}`, wave: index < 10 ? 'a' : 'b' })),
				open: { desk: days(5).map((day) => `${day} 08:00-09:10`) },
				minutes: [10],
				grid: 10,
				more: {
					waves: [{ id: 'a', enrollBy: '2027-02-02' as never }, { id: 'b' }, { id: 'nobody' }]
				}
			})
		);
		const last = planEnrollment(document, { seconds: 10, seed: 1 }).bookings.at(-1)?.start.slice(0, 10);
		const forecast = forecastEnrollment(document, { runs: 20, seed: 1 });
		expect(forecast.finish).toEqual({ p50: last, p80: last, p95: last });
		expect(forecast.visits.mean).toBe(1);
		expect(forecast.waves).toEqual([
			{ wave: 'a', people: 10, enrolledOnTime: { mean: 10, p10: 10, p50: 10, p90: 10 }, allOnTime: 1 },
			{ wave: 'b', people: 20, enrolledOnTime: { mean: 20, p10: 20, p50: 20, p90: 20 }, allOnTime: 1 },
			{ wave: 'nobody', people: 0, enrolledOnTime: { mean: 0, p10: 0, p50: 0, p90: 0 }, allOnTime: 1 }
		]);
		expect(forecast.days.at(-1)).toEqual({ date: '2027-02-05', mean: 30, p10: 30, p50: 30, p90: 30 });
	});

	test('where somebody cannot be booked, nobody is told a finish', () => {
		const forecast = site(8, ['2027-02-01 08:00-09:00'], {});
		expect(forecast.finish).toEqual({ p50: null, p80: null, p95: null });
		expect(waveOf(forecast)).toMatchObject({ people: 8, enrolledOnTime: { mean: 6 }, allOnTime: 0 });
	});
});

describe('no-shows are binomial', () => {
	test('with no time left to come again, n (1 - p) are enrolled on average, and all with the chance (1 - p)^n', () => {
		const [people, p] = [6, 0.2];
		const wave = waveOf(site(people, ['2027-02-01 08:00-09:00'], { noShow: p }));
		const error = Math.sqrt((people * p * (1 - p)) / runs);
		expect(Math.abs(wave.enrolledOnTime.mean - people * (1 - p))).toBeLessThan(5 * error);
		const all = (1 - p) ** people;
		expect(Math.abs(wave.allOnTime - all)).toBeLessThan(5 * Math.sqrt((all * (1 - all)) / runs));
		// Binomial(6, 0.8): P(X <= 3) = 0.0989, P(X <= 4) = 0.3446, P(X <= 5) = 0.7379.
		expect(wave.enrolledOnTime).toMatchObject({ p50: 5, p90: 6 });
	});

	test('who did not come is enrolled late on a later day, and the finish is that of a geometric number of days', () => {
		const p = 0.5;
		const forecast = site(
			1,
			days(20).map((day) => `${day} 08:00-08:10`),
			{ noShow: p }
		);
		expect(Math.abs(waveOf(forecast).allOnTime - p)).toBeLessThan(5 * Math.sqrt(0.25 / runs));
		// P(day k or earlier) = 1 - 0.5^k: 0.5, 0.75, 0.875, 0.9375, 0.96875.
		expect(forecast.finish.p80).toBe('2027-02-03');
		expect(forecast.finish.p95).toBe('2027-02-05');
		// Only appointments to which somebody came are visits.
		expect(forecast.visits.mean).toBeCloseTo(1, 3);
	});
});

describe('repeat visits are geometric', () => {
	test.each([0.05, 0.3, 0.6])('with the chance %f of another one, 1 / (1 - r) visits a person', (r) => {
		const forecast = site(
			3,
			days(28).map((day) => `${day} 08:00-09:00`),
			{ repeatVisit: r }
		);
		const error = Math.sqrt(r) / (1 - r) / Math.sqrt(3 * runs);
		expect(Math.abs(forecast.visits.mean - 1 / (1 - r))).toBeLessThan(5 * error);
	});
});

describe('failures to enroll', () => {
	test('V-PLAN-04: of 250 people at 2 % each, 5 on average, and at least one with the chance 0.9936', () => {
		const document = enrollSite({
			people: Array.from({ length: 250 }, (_, index) => ({ id: `p${index}`, wave: 'w' })),
			open: { desk: days(2).map((day) => `${day} 00:00-24:00`) },
			minutes: [10],
			grid: 10,
			more: { waves: [{ id: 'w' }], assumptions: { failToEnroll: 0.02 } }
		});
		const forecast = forecastEnrollment(rolloutSchema.parse(document), { runs, seed: 3 });
		const { enrolledOnTime, allOnTime } = waveOf(forecast);
		expect(Math.abs(enrolledOnTime.mean - 245)).toBeLessThan(5 * Math.sqrt((250 * 0.02 * 0.98) / runs));
		expect(Math.abs(allOnTime - 0.0064)).toBeLessThan(5 * Math.sqrt((0.0064 * 0.9936) / runs));
		// Failures by the binomial distribution: at most 4 with 0.4387, 5 with 0.6160, 7 with 0.8687, 8 with 0.9339.
		expect(enrolledOnTime).toMatchObject({ p10: 242, p50: 245 });
		// Who cannot be enrolled is done after a visit, and does not hold up the others.
		expect(forecast.finish.p95).toBe('2027-02-02');
	});
});

test('the same seed gives the same forecast, another seed another', () => {
	const open = days(10).map((day) => `${day} 08:00-09:00`);
	const one = site(20, open, { noShow: 0.2, minutesSpread: 0.3 });
	expect(site(20, open, { noShow: 0.2, minutesSpread: 0.3 })).toEqual(one);
	const other = site(20, open, { noShow: 0.2, minutesSpread: 0.3 }, 8);
	// Other futures, of the same distribution.
	expect(other.days).not.toEqual(one.days);
	expect(other.waves).not.toEqual(one.waves);
	const [mean, again] = [waveOf(one).enrolledOnTime.mean, waveOf(other).enrolledOnTime.mean];
	expect(Math.abs(mean - again)).toBeLessThan(5 * Math.sqrt((2 * 20 * 0.2 * 0.8) / runs));
});
