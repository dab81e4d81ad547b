import { describe, expect, test } from 'vitest';
import { enrollSite } from '../../../../../tests/support/enroll-site';
import { type RolloutDocument, rolloutSchema } from '../../document/schema';
import { outlookOf } from './forecast';
import type { DueReserve } from './reserve';

/** Demand for rebookings whose distribution is known in closed form; quantiles are held between those one percent beside. */

const runs = 8000;
const confidences = [0.8, 0.9, 0.95];

type Enrollment = NonNullable<RolloutDocument['enrollment']>;

function reservesOf(document: RolloutDocument, seed = 5) {
	return outlookOf(rolloutSchema.parse(document), { runs, seed, confidences }).reserves;
}

function duesOf(document: RolloutDocument, seed?: number): DueReserve[] {
	return reservesOf(document, seed).map(({ dues }) => dues.at(-1) as DueReserve);
}

/** 20 people on the first date, and more dates on which everybody can come again. */
function site(dates: readonly string[], assumptions: Enrollment['assumptions'], lanes = 1): RolloutDocument {
	return enrollSite({
		people: Array.from({ length: 20 }, (_, index) => ({ id: `p${index}`, wave: 'w' })),
		open: { desk: dates.map((date) => `${date} 08:00-12:00`) },
		minutes: [10],
		turnover: 2,
		grid: 12,
		lanes,
		more: {
			waves: [{ id: 'w', enrollBy: dates.at(-1) as never }],
			bookings: Array.from({ length: 20 }, (_, index) => ({
				person: `p${index}`,
				station: 'desk',
				start:
					`${dates[0]}T${String(8 + Math.floor(index / 5)).padStart(2, '0')}:${String(12 * (index % 5)).padStart(2, '0')}` as never,
				minutes: 10
			})),
			...(assumptions ? { assumptions } : {})
		}
	});
}

/** The least count whose cumulative chance reaches a share. */
function quantile(chanceOf: (count: number) => number, share: number): number {
	let [count, sum] = [0, chanceOf(0)];
	while (sum < share) sum += chanceOf(++count);
	return count;
}

const choose = (n: number, k: number): number =>
	Array.from({ length: k }, (_, index) => (n - index) / (index + 1)).reduce((product, one) => product * one, 1);
const binomial = (n: number, p: number) => (k: number) => choose(n, k) * p ** k * (1 - p) ** (n - k);
/** Failures before the n-th success. */
const negativeBinomial = (n: number, p: number) => (k: number) => choose(n + k - 1, k) * p ** k * (1 - p) ** n;

function expectBetween(found: number, chanceOf: (count: number) => number, share: number): void {
	expect(found).toBeGreaterThanOrEqual(quantile(chanceOf, share - 0.01));
	expect(found).toBeLessThanOrEqual(quantile(chanceOf, share + 0.01));
}

describe('time to keep free', () => {
	test('one more day: as many as do not come, by the binomial quantile, times station time and turnover', () => {
		const dues = duesOf(site(['2027-02-01', '2027-02-02'], { noShow: 0.15 }));
		dues.forEach((due, place) => {
			expectBetween(due.appointments, binomial(20, 0.15), confidences[place] as number);
			expect(due.minutes).toBe(12 * due.appointments);
			expect(due).toMatchObject({ date: '2027-02-02', waves: ['w'], people: 20, unplanned: 0, room: 20, isKept: true });
			expect(due.mean).toBeCloseTo(3, 1);
			// Whoever does not come on the last day either is late.
			expect(due.late.mean).toBeCloseTo(20 * 0.15 ** 2, 1);
			expect(due.late.none).toBeCloseTo((1 - 0.15 ** 2) ** 20, 1);
		});
		// Binomial(20, 0.15) by any table: P(X <= 4) = 0.8298, P(X <= 5) = 0.9327, P(X <= 6) = 0.9781.
		expect(dues.map(({ appointments }) => appointments)).toEqual([4, 5, 6]);
	});

	test('days enough: again and again, by the negative binomial quantile', () => {
		const dates = Array.from({ length: 14 }, (_, day) => `2027-02-${String(day + 1).padStart(2, '0')}`);
		for (const [place, due] of duesOf(site(dates, { repeatVisit: 0.3 })).entries()) {
			expectBetween(due.appointments, negativeBinomial(20, 0.3), confidences[place] as number);
			expect(due.mean).toBeCloseTo((20 * 0.3) / 0.7, 0);
			expect(due.late.none).toBe(1);
		}
	});

	test('failures to enroll need no further appointment, and without chance nothing is kept free', () => {
		expect(duesOf(site(['2027-02-01', '2027-02-02'], { failToEnroll: 0.5 }))[0]).toMatchObject({
			appointments: 0,
			minutes: 0,
			mean: 0,
			late: { mean: 0, none: 1 },
			isKept: true
		});
	});

	test('weeks: what can be held only in the second week must be free there', () => {
		// A Friday; the next day with the station open is Monday, so that everything falls into the second week.
		const due = duesOf(site(['2027-02-05', '2027-02-08'], { noShow: 0.15 }))[1];
		expect(due?.weeks).toMatchObject([
			{ from: '2027-02-05', until: '2027-02-05', appointments: 0, room: 0 },
			{ from: '2027-02-08', until: '2027-02-08', appointments: 5, minutes: 60, room: 20 }
		]);
	});

	test('in two weeks the chosen share of futures fits into both sums at once', () => {
		const due = duesOf(site(['2027-02-05', '2027-02-08', '2027-02-15'], { noShow: 0.4 }))[1];
		const [, second, third] = due?.weeks ?? [];
		// Not come on Friday, and of those not on Monday: the first sum is that of both.
		const tail = third?.appointments ?? 0;
		expect(tail).toBeGreaterThanOrEqual(quantile(binomial(20, 0.16), 0.9));
		const miss = (k: number) => binomial(20, 0.4)(k);
		const both = (limit: number, later: number) => {
			let sum = 0;
			for (let first = 0; first <= 20; first++) {
				for (let again = 0; again <= Math.min(first, later); again++) {
					if (first + again <= limit) sum += miss(first) * binomial(first, 0.4)(again);
				}
			}
			return sum;
		};
		expect(both(tail + (second?.appointments ?? 0), tail)).toBeGreaterThan(0.89);
	});

	test('a due date before the next day with a station open: no time that is kept free helps', () => {
		const document = site(['2027-02-01', '2027-02-08'], { noShow: 0.15 });
		const early = {
			...document,
			enrollment: { ...document.enrollment, waves: [{ id: 'w', enrollBy: '2027-02-03' as never }] }
		};
		const [due] = duesOf(early);
		expect(due).toMatchObject({ date: '2027-02-03', appointments: 0, room: 0 });
		expect(due?.late.mean).toBeCloseTo(3, 1);
	});

	test('whoever is due earlier counts for the later date too, and what does not fit is told', () => {
		const people = Array.from({ length: 20 }, (_, index) => ({ id: `p${index}`, wave: index < 10 ? 'a' : 'b' }));
		const document = { ...site(['2027-02-01', '2027-02-02', '2027-02-03'], { noShow: 0.3 }), people };
		const desk = document.enrollment?.stations?.[0];
		const narrow = {
			...document,
			enrollment: {
				...document.enrollment,
				waves: [{ id: 'a', enrollBy: '2027-02-02' as never }, { id: 'b' }],
				stations: [{ ...desk, open: desk?.open?.map((one, day) => (day === 0 ? one : { ...one, at: '08:00-08:24' })) }]
			}
		} as RolloutDocument;
		const [first, second] = reservesOf(narrow)[1]?.dues ?? [];
		expect(first).toMatchObject({ date: '2027-02-02', waves: ['a'], people: 10, room: 2, isKept: false });
		expect(second).toMatchObject({ date: null, waves: ['b'], people: 20, room: 4, isKept: false });
		expectBetween(first?.appointments ?? 0, binomial(10, 0.3), 0.9);
	});

	test('stations stand by themselves, and together they need at least as much as the whole', () => {
		const document = enrollSite({
			people: Array.from({ length: 40 }, (_, index) => ({ id: `p${index}`, needs: [index % 2 === 0 ? 'x' : 'y'] })),
			open: {},
			minutes: [10],
			grid: 10,
			more: {
				stations: ['x', 'y'].map((need) => ({
					id: need,
					area: 'lobby',
					serves: [need],
					open: ['2027-02-01', '2027-02-02'].map((date) => ({ date: date as never, at: '08:00-11:20' as never }))
				})),
				assumptions: { noShow: 0.15 }
			}
		});
		const due = duesOf(document)[1];
		expect(due?.stations.map(({ station }) => station)).toEqual(['x', 'y']);
		const sum = (due?.stations ?? []).reduce((total, { appointments }) => total + appointments, 0);
		expect(sum).toBeGreaterThanOrEqual(due?.appointments ?? Infinity);
	});

	test('the same seed gives the same reserve', () => {
		const document = site(['2027-02-01', '2027-02-02'], { noShow: 0.2, minutesSpread: 0.3 });
		expect(reservesOf(document)).toEqual(reservesOf(document));
	});
});
