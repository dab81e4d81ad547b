import { describe, expect, test } from 'vitest';
import { enrollSite } from '../../../../../tests/support/enroll-site';
import { rolloutSchema } from '../../document/schema';
import { EnrollmentModel } from '../model';
import { likelyArrivals } from './likely-arrivals';
import { lineOfDay } from './line-of-a-day';
import { erlangC, lanesFor, longerThan, serviceAllowance, steadyLine } from './queue';
import { serviceOf, walkInDesk } from './walk-in-desk';

/** Vectors of the project's list of facts and standards, by their ids; sources stand there. */

describe('Erlang C', () => {
	test.each([
		[0.5, { 1: 0.5, 2: 0.1, 3: 0.015152, 4: 0.001805 }],
		[1, { 2: 0.333333, 3: 0.090909, 4: 0.020408, 5: 0.003831 }],
		[1.5, { 2: 0.642857, 3: 0.236842, 4: 0.074586, 5: 0.020139 }],
		[2, { 3: 0.444444, 4: 0.173913, 5: 0.059701, 6: 0.018018 }],
		[2.5, { 3: 0.702247, 4: 0.319857, 5: 0.130371, 6: 0.047445 }],
		[3, { 4: 0.509434, 5: 0.236152, 6: 0.099143, 7: 0.037645 }]
	])('the table of exact values, load %f', (load, byLanes) => {
		for (const [lanes, value] of Object.entries(byLanes)) expect(erlangC(Number(lanes), load)).toBeCloseTo(value, 6);
	});

	test('V-Q-01: 9 arrivals, 5 served each an hour', () => {
		const two = steadyLine({ arrivalsPerHour: 9, lanes: 2, serviceHours: 1 / 5, variation: 1 });
		expect(two.waitChance).toBeCloseTo(81 / 95, 12);
		expect(two.queue).toBeCloseTo(7.673684, 6);
		expect(two.wait + 1 / 5).toBeCloseTo(1.052632, 6);
		const four = steadyLine({ arrivalsPerHour: 9, lanes: 4, serviceHours: 1 / 5, variation: 1 });
		expect(four.waitChance).toBeCloseTo(2187 / 17015, 12);
		expect(four.queue).toBeCloseTo(0.105164, 6);
		expect(four.wait + 1 / 5).toBeCloseTo(0.211685, 6);
	});

	test('V-Q-02: 30 arrivals an hour, 5 minutes each, nine of ten without any wait take 6 lanes', () => {
		expect(lanesFor({ arrivalsPerHour: 30, serviceHours: 5 / 60, variation: 1 }, { hours: 0, share: 0.9 })).toBe(6);
	});

	test('V-Q-03 and V-Q-04', () => {
		expect(erlangC(3, 2)).toBeCloseTo(4 / 9, 12);
		expect(steadyLine({ arrivalsPerHour: 2, lanes: 3, serviceHours: 1, variation: 1 }).queue).toBeCloseTo(8 / 9, 12);
		const line = steadyLine({ arrivalsPerHour: 150, lanes: 2, serviceHours: 1 / 100, variation: 1 });
		expect(line.waitChance).toBeCloseTo(9 / 14, 12);
		expect(line.queue).toBeCloseTo(1.928571, 6);
		expect(line.wait * 1000).toBeCloseTo(12.857, 3);
	});

	test('V-Q-05: a load that the lanes cannot carry is refused, no arrivals wait for nothing', () => {
		expect(() => erlangC(2, 2)).toThrow(RangeError);
		expect(() => erlangC(0, 0)).toThrow(RangeError);
		expect(() => erlangC(1, -1)).toThrow(RangeError);
		expect(steadyLine({ arrivalsPerHour: 0, lanes: 1, serviceHours: 1, variation: 1 })).toEqual({
			use: 0,
			waitChance: 0,
			queue: 0,
			wait: 0
		});
	});

	test('does not overflow with a thousand lanes', () => {
		expect(erlangC(1000, 900)).toBeGreaterThan(0);
		expect(erlangC(1000, 900)).toBeLessThan(0.01);
	});
});

describe('one lane and any service time (Pollaczek and Khinchine)', () => {
	test('V-Q-06: 5 an hour, 9 minutes with a deviation of 3', () => {
		const line = steadyLine({ arrivalsPerHour: 5, lanes: 1, serviceHours: 9 / 60, variation: 3 / 9 });
		expect(line.use).toBeCloseTo(0.75, 12);
		expect(line.wait * 60).toBeCloseTo(15, 10);
		expect(line.queue).toBeCloseTo(1.25, 10);
		expect(serviceAllowance(0) / serviceAllowance(1)).toBe(0.5);
		const wait = (variation: number): number =>
			steadyLine({ arrivalsPerHour: 5, lanes: 1, serviceHours: 9 / 60, variation }).wait * 60;
		expect(wait(0)).toBeCloseTo(13.5, 10);
		expect(wait(1)).toBeCloseTo(27, 10);
	});

	test('V-Q-07: one arrival in ten minutes, six minutes each', () => {
		const wait = (variance: number): number =>
			steadyLine({ arrivalsPerHour: 6, lanes: 1, serviceHours: 0.1, variation: Math.sqrt(variance) / 6 }).wait * 60;
		expect(wait(0)).toBeCloseTo(4.5, 10);
		expect(wait(36)).toBeCloseTo(9, 10);
	});
});

describe('one lane that is hardly idle (M/M/1 in closed form)', () => {
	test.each([0.9, 0.99, 0.999, 0.999999])('busy for a share of %f of the time', (busy) => {
		const [served, hours] = [12, 0.4];
		const line = steadyLine({ arrivalsPerHour: busy * served, lanes: 1, serviceHours: 1 / served, variation: 1 });
		const near = (found: number, exact: number): void => expect(found / exact).toBeCloseTo(1, 8);
		// C = r, Lq = r² / (1 - r), Wq = r / (m - l), P(wait > t) = r exp(-(m - l) t).
		near(line.waitChance, busy);
		near(line.queue, busy ** 2 / (1 - busy));
		near(line.wait, busy / (served * (1 - busy)));
		near(longerThan(line, hours), busy * Math.exp(-served * (1 - busy) * hours));
	});

	test('with all service alike it waits half as long, however busy (M/D/1)', () => {
		const terms = { arrivalsPerHour: 11.9988, lanes: 1, serviceHours: 1 / 12 };
		const ratio = steadyLine({ ...terms, variation: 0 }).wait / steadyLine({ ...terms, variation: 1 }).wait;
		expect(ratio).toBeCloseTo(0.5, 12);
	});
});

test('several lanes: Erlang C times (1 + v²) / 2, the approximation of Allen and Cunneen for arrivals by chance', () => {
	// V-Q-01 with two lanes waits 7.673684 / 9 hours with exponential service.
	const line = steadyLine({ arrivalsPerHour: 9, lanes: 2, serviceHours: 1 / 5, variation: 0.5 });
	expect(line.wait).toBeCloseTo(((7.673684 / 9) * (1 + 0.25)) / 2, 6);
});

describe('a line through a day', () => {
	test('with the same arrivals for long, it is the line of the long run', () => {
		const service = { hours: 0.2, variation: 1 };
		const long = Array.from({ length: 60 }, () => ({ hours: 1, arrivalsPerHour: 9, lanes: 4 }));
		const last = lineOfDay(long, service, 0.1).at(-1);
		const line = steadyLine({ arrivalsPerHour: 9, lanes: 4, serviceHours: 0.2, variation: 1 });
		expect(last?.queue).toBeCloseTo(line.queue, 8);
		expect(last?.wait).toBeCloseTo(line.wait, 8);
		expect(last?.use).toBeCloseTo(line.use, 8);
		expect(last?.longer).toBeCloseTo(longerThan(line, 0.1), 8);
	});

	test('as many lanes as people: present is Poisson with the mean a (1 - exp(-t / s)) (Erlang, infinite lanes)', () => {
		const [piece] = lineOfDay([{ hours: 0.5, arrivalsPerHour: 12, lanes: 200 }], { hours: 0.25, variation: 1 }, 0);
		// Mean over the half hour, at the twelve times at which it is looked at.
		const times = Array.from({ length: 12 }, (_, look) => (look + 0.5) / 24);
		const mean = times.reduce((sum, time) => sum + 3 * (1 - Math.exp(-time / 0.25)), 0) / 12;
		expect((piece?.use ?? 0) * 200).toBeCloseTo(mean, 8);
		expect(piece?.queue).toBeCloseTo(0, 12);
	});

	test('with no lane, everybody who came is waiting: 10 an hour leave 10 after an hour and 30 after three', () => {
		const closed = { hours: 1, arrivalsPerHour: 10, lanes: 0 };
		const pieces = lineOfDay([closed, closed, closed], { hours: 0.1, variation: 1 }, 0.1);
		expect(pieces.map(({ queueAtEnd }) => queueAtEnd / serviceAllowance(1))).toEqual([
			expect.closeTo(10, 8),
			expect.closeTo(20, 8),
			expect.closeTo(30, 8)
		]);
		expect(pieces[0]?.longer).toBeCloseTo(1, 12);
	});

	test('what a rush leaves behind is waited for in the hours after it', () => {
		const desk = walkInDesk({
			open: '06:00-09:30',
			arrivals: [40, 10],
			lanes: 3,
			minutes: 6,
			variation: 1,
			withinMinutes: 5,
			share: 0.9
		});
		expect(desk.hours.map(({ from, to }) => [from, to])).toEqual([
			[360, 420],
			[420, 480],
			[480, 540],
			[540, 570]
		]);
		expect(desk.people).toBe(40 + 10 + 10 + 5);
		const [rush, after, calm] = desk.hours;
		expect(rush?.steady).toBeNull();
		expect(after?.waitMinutes).toBeGreaterThan(2 * (after?.steady?.waitMinutes ?? Infinity));
		expect(calm?.waitMinutes).toBeLessThan(after?.waitMinutes ?? 0);
		expect(desk.longer).toBeGreaterThan(0.1);
		const better = walkInDesk({
			open: '06:00-09:30',
			arrivals: [40, 10],
			lanes: desk.lanesNeeded ?? 0,
			minutes: 6,
			variation: 1,
			withinMinutes: 5,
			share: 0.9
		});
		expect(better.longer).toBeLessThanOrEqual(0.1);
	});
});

test('the station time of a mixed crowd has its mean and its deviation', () => {
	const document = enrollSite({
		people: [
			{ id: 'a', captureClass: 'c8' },
			{ id: 'b', captureClass: 'c8' },
			{ id: 'c', captureClass: 'c14' }
		],
		minutes: [8, 14],
		open: {},
		more: { assumptions: { minutesSpread: 0 } }
	});
	// Mean 10 and variance 8 by hand; with 2 minutes of turnover the mean is 12.
	const service = serviceOf(rolloutSchema.parse(document), 2);
	expect(service?.minutes).toBe(12);
	expect(service?.variation).toBeCloseTo(Math.sqrt(8) / 12, 12);
});

describe('the wait that a share does not exceed', () => {
	test('in the long run ln(C / (1 - share)) / (c/s - a), from the tail of the wait of Erlang C', () => {
		const long = Array.from({ length: 60 }, () => ({ hours: 1, arrivalsPerHour: 9, lanes: 2 }));
		const last = lineOfDay([...long, ...long], { hours: 0.2, variation: 1 }, 0.1, 0.9).at(-1);
		// V-Q-01 with two lanes: C = 81/95, 10 served and 9 arriving an hour.
		expect(last?.waitAtShare).toBeCloseTo(Math.log(81 / 95 / 0.1) / (10 - 9), 2);
	});

	test('is none where enough find a lane free, and has no end where nobody is served', () => {
		expect(
			lineOfDay([{ hours: 1, arrivalsPerHour: 1, lanes: 9 }], { hours: 0.1, variation: 1 }, 0)[0]?.waitAtShare
		).toBe(0);
		expect(
			lineOfDay([{ hours: 1, arrivalsPerHour: 9, lanes: 0 }], { hours: 0.1, variation: 1 }, 0)[0]?.waitAtShare
		).toBe(Infinity);
	});

	test('agrees with the share that waits longer than so long', () => {
		const pieces = [{ hours: 1, arrivalsPerHour: 60, lanes: 3 }];
		const found = lineOfDay(pieces, { hours: 0.1, variation: 0.5 }, 0, 0.8)[0]?.waitAtShare ?? 0;
		expect(found).toBeGreaterThan(0.1);
		expect(lineOfDay(pieces, { hours: 0.1, variation: 0.5 }, found)[0]?.longer).toBeCloseTo(0.2, 1);
	});
});

test('a day with other numbers of lanes: those around the asked and the needed one, the needed one is the first that holds', () => {
	const desk = walkInDesk({
		open: '08:00-11:00',
		arrivals: [30],
		lanes: 2,
		minutes: 5,
		variation: 1,
		withinMinutes: 5,
		share: 0.9
	});
	const held = desk.byLanes.filter(({ longer }) => longer <= 0.1).map(({ lanes }) => lanes);
	expect(Math.min(...held)).toBe(desk.lanesNeeded);
	expect(desk.byLanes.find(({ lanes }) => lanes === 2)?.longer).toBeCloseTo(desk.longer, 12);
	const waits = desk.byLanes.map(({ waitMinutes }) => waitMinutes);
	expect(waits).toEqual([...waits].sort((a, b) => b - a));
});

describe('who is likely to come', () => {
	const document = enrollSite({
		people: [
			{ id: 'early', shiftPattern: 'e' },
			{ id: 'always' },
			{ id: 'wheelchair', needs: ['step-free'] },
			{ id: 'night', shiftPattern: 'n' }
		],
		open: { desk: ['2027-01-11 08:00-12:00', '2027-01-12 08:00-12:00'] },
		minutes: [0],
		rest: {
			shiftPatterns: [
				{ id: 'e', anchor: '2027-01-11' as never, cycleDays: 7, shifts: [{ day: 0, at: '06:00-10:00' }] },
				{ id: 'n', anchor: '2027-01-11' as never, cycleDays: 7, shifts: [{ day: 0, at: '22:00-06:00' }] }
			]
		}
	});
	const model = new EnrollmentModel(rolloutSchema.parse(document));
	const ready = model.stationsById.get('desk') as NonNullable<ReturnType<typeof model.stationsById.get>>;
	const asked = { date: '2027-01-11' as never, open: '08:00-12:00' };

	test('each comes once, at any moment in which they could; by hand', () => {
		expect(likelyArrivals(model, ready, { ...asked, spread: false })).toEqual({
			// The early shift in two hours, the other in four.
			arrivals: [0.8, 0.8, 0.3, 0.3],
			people: 2,
			others: 2
		});
	});

	test('over all days on which the station is open', () => {
		expect(likelyArrivals(model, ready, { ...asked, spread: true }).arrivals).toEqual([0.6, 0.6, 0.1, 0.1]);
	});
});
