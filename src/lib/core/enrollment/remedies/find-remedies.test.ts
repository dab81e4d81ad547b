import { expect, it } from 'vitest';
import { enrollSite } from '../../../../../tests/support/enroll-site';
import { rolloutSchema } from '../../document/schema';
import { planEnrollment } from '../plan';

const options = { seconds: 10, seed: 1 };

it('tells no remedy by which somebody would only take the place of another', () => {
	// Two places on the day after the wave is due. Were it due later, a best plan would book its person, and one of the others no more.
	const document = enrollSite({
		people: [{ id: 'due', wave: 'early' }, { id: 'b' }, { id: 'c' }],
		open: { desk: ['2027-11-08 11:00-11:20'] },
		minutes: [10],
		grid: 10,
		more: { waves: [{ id: 'early', enrollBy: '2027-11-07' }] } as never
	});
	const { bookings, shortfalls } = planEnrollment(rolloutSchema.parse(document), options);
	expect(bookings).toHaveLength(2);
	expect(shortfalls).toMatchObject([{ kind: 'no-common-time', people: ['due'] }]);
	const remedies = shortfalls.flatMap((one) => one.remedies);
	expect(remedies.length).toBeGreaterThan(0);
	for (const { takes } of remedies) expect(takes.stationMinutes).toBeGreaterThanOrEqual(10);
});

it('lets no fixed booking go for somebody who would then stand in its place', () => {
	const document = enrollSite({
		people: [{ id: 'a' }, { id: 'locked', department: 'Packing' }, { id: 'c', department: 'Packing' }],
		open: { desk: ['2027-11-08 11:00-11:10'] },
		minutes: [10],
		grid: 10,
		more: {
			awayLimits: [{ department: 'Packing', maxAway: 1 }],
			bookings: [{ person: 'locked', station: 'desk', lane: 1, start: '2027-11-08T11:00', minutes: 10, fixed: true }]
		} as never
	});
	const { bookings, shortfalls } = planEnrollment(rolloutSchema.parse(document), options);
	expect(bookings).toHaveLength(1);
	const remedies = shortfalls.flatMap((one) => one.remedies);
	expect(remedies.length).toBeGreaterThan(0);
	for (const { takes } of remedies) expect(takes.movedBookings === 0 || takes.stationMinutes > 0).toBe(true);
});

it('prices a station that is open longer by the minutes that pass, also in the night of a clock change', () => {
	// Clocks go from 02:00 to 03:00 on 14 March 2027 (15 U.S.C. 260a): 01:40-03:20 lasts 40 minutes, not 100.
	const document = enrollSite({
		people: ['a', 'b'].map((id) => ({ id, shiftPattern: 'night' })),
		open: { desk: ['2027-03-14 03:00-03:20'] },
		minutes: [20],
		grid: 20,
		rest: {
			horizon: { from: '2027-03-14', until: '2027-03-14' },
			shiftPatterns: [
				{ id: 'night', anchor: '2027-03-14', cycleDays: 7, shifts: [{ day: 0, at: '01:40-03:20' }], worksOn: [] }
			]
		} as never
	});
	const { shortfalls } = planEnrollment(rolloutSchema.parse(document), options);
	const longer = shortfalls.flatMap(({ remedies }) => remedies).filter(({ kinds }) => kinds.join() === 'open-longer');
	expect(longer.map(({ does, takes, minutes }) => ({ does, minutes, takes: takes.stationMinutes }))).toEqual([
		{ does: 'Open desk on 2027-03-14 01:40-03:20 in place of 03:00-03:20, 20 minutes longer', minutes: 20, takes: 20 }
	]);
});
