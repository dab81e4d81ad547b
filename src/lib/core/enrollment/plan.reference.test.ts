import { describe, expect, test } from 'vitest';
import { type SitePerson, enrollSite } from '../../../../tests/support/enroll-site';
import { rolloutSchema } from '../document/schema';
import { type EnrollmentPlan, planEnrollment } from './plan';

/** Vectors of the project's list of facts and standards, by their ids, as enrollment puzzles. */

function planOf(site: Parameters<typeof enrollSite>[0]): EnrollmentPlan {
	return planEnrollment(rolloutSchema.parse(enrollSite(site)), { seconds: 10, seed: 1 });
}

function many(count: number, more: Partial<SitePerson> = {}): SitePerson[] {
	return Array.from({ length: count }, (_, index) => ({ id: `p${index}`, ...more }));
}

const days = (count: number): string[] =>
	Array.from({ length: count }, (_, day) => `2027-02-${String(day + 1).padStart(2, '0')}`);

describe('Hall’s condition (V-MATCH-01): three people for two slots', () => {
	const three = [{ id: 'A' }, { id: 'B' }, { id: 'C' }];

	test('two are booked, and all three are the witness', () => {
		const plan = planOf({ people: three, open: { desk: ['2027-02-01 08:00-08:20'] }, minutes: [10], grid: 10 });
		expect(plan.bookings).toHaveLength(2);
		expect(plan.bounds.bookable).toBe(2);
		expect(plan.shortfalls).toMatchObject([
			{ kind: 'station-time', people: ['A', 'B', 'C'], neededMinutes: 30, availableMinutes: 20 }
		]);
	});

	test('with a third slot for one of them, all are placed', () => {
		const plan = planOf({
			people: [three[0] as SitePerson, three[1] as SitePerson, { id: 'C', needs: ['quiet'] }],
			open: {},
			minutes: [10],
			grid: 10,
			more: {
				stations: [
					{ id: 'desk', area: 'lobby', open: [{ date: '2027-02-01' as never, at: '08:00-08:20' }] },
					{ id: 'room', area: 'lobby', serves: ['quiet'], open: [{ date: '2027-02-01' as never, at: '08:00-08:10' }] }
				]
			}
		});
		expect(plan).toMatchObject({ unbooked: [], shortfalls: [], optimal: true });
		expect(plan.bookings).toHaveLength(3);
	});
});

describe('planning arithmetic', () => {
	test('V-PLAN-01: 250 people, 10 minutes, one station open 6 hours a day, take 7 days', () => {
		const site = { people: many(250), minutes: [10], grid: 10 };
		const open = (count: number): string[] => days(count).map((day) => `${day} 08:00-14:00`);
		const week = planOf({ ...site, open: { desk: open(8) } });
		expect(week).toMatchObject({ unbooked: [], bounds: { bookable: 250, sessions: 7 } });
		expect(week.sessions).toHaveLength(7);
		expect(planOf({ ...site, open: { desk: open(6) } }).bounds.bookable).toBe(6 * 36);
	});

	test('V-PLAN-01: with two stations 4 days', () => {
		const open = days(4).map((day) => `${day} 08:00-14:00`);
		const plan = planOf({ people: many(250), open: { a: open, b: open }, minutes: [10], grid: 10 });
		expect(plan.unbooked).toEqual([]);
		// ceil(250 / 36) sessions, though there are eight.
		expect(plan.sessions).toHaveLength(7);
		expect(plan.bounds.sessions).toBe(7);
	});

	test('V-PLAN-03: 7 hours hold 52 people of 8 minutes, the half slot dropped', () => {
		const plan = planOf({ people: many(60), open: { desk: ['2027-02-01 08:00-15:00'] }, minutes: [8], grid: 1 });
		expect(plan.bookings).toHaveLength(52);
	});
});

describe('bin packing: people of different station times into sessions of one length', () => {
	const packed = (capacity: string, sizes: readonly number[]): EnrollmentPlan =>
		planOf({
			people: sizes.map((size, index) => ({ id: `p${index}`, captureClass: `c${size}` })),
			minutes: [...new Set(sizes)],
			open: { desk: days(sizes.length).map((day) => `${day} ${capacity}`) }
		});

	test.each([
		['V-BIN-01', '08:00-09:40', [70, 60, 50, 33, 33, 33, 11, 7, 3], 4],
		['V-BIN-02', '08:00-08:10', [6, 6, 6, 6], 4],
		['V-BIN-03', '08:00-16:00', [200, 200, 200, 200, 200, 200, 200], 4],
		['V-BIN-04', '08:00-08:12', [6, 5, 4, 3, 2, 2, 2], 2]
	])('%s', (_, capacity, sizes, sessions) => {
		const plan = packed(capacity, sizes);
		expect(plan.unbooked).toEqual([]);
		expect(plan.sessions).toHaveLength(sessions);
		expect(plan.bounds.sessions).toBe(sessions);
		expect(plan.optimal).toBe(true);
	});
});

describe('clock changes', () => {
	test('V-DST-05: a stretch from 01:00 to 02:00 on 28 March 2027 in London has no length', () => {
		const plan = planOf({
			people: many(1),
			open: { desk: ['2027-03-28 01:00-02:00'] },
			rest: { site: { name: 'Invented site', timeZone: 'Europe/London' } }
		});
		expect(plan.unbooked).toEqual([{ person: 'p0', reason: 'no-common-time' }]);
	});

	test('a stretch over the skipped hour is an hour shorter, and nobody starts in that hour (RFC 5545, 3.3.5)', () => {
		const plan = planOf({ people: many(13), open: { desk: ['2027-03-14 01:00-04:00'] }, minutes: [10], grid: 10 });
		expect(plan.bookings).toHaveLength(12);
		expect(plan.bookings.map(({ start }) => start.slice(11, 13))).not.toContain('02');
	});
});
