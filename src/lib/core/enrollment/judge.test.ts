import { describe, expect, test } from 'vitest';
import { enrollSite } from '../../../../tests/support/enroll-site';
import { rolloutSchema } from '../document/schema';
import { explainPlacement } from './explain-placement';
import { judgeBookings, judgeMove } from './judge';
import { sessionsOf } from './sessions';
import { stationLoads } from './station-load';
import type { PlannedBooking } from './validity';

const rollout = rolloutSchema.parse(
	enrollSite({
		people: ['a', 'b', 'c'].map((id) => ({ id, department: 'Packing', workAreas: ['packing'], shiftPattern: 'early' })),
		open: { desk: ['2027-02-01 08:00-09:00'] },
		minutes: [8],
		turnover: 2,
		grid: 5,
		lanes: 2,
		more: {
			walks: [{ between: ['lobby', 'packing'], minutes: 4 }],
			awayLimits: [{ department: 'Packing', maxAway: 2 }]
		},
		rest: {
			shiftPatterns: [
				{ id: 'early', anchor: '2027-02-01' as never, cycleDays: 7, shifts: [{ day: 0, at: '07:00-08:52' }] }
			]
		}
	})
);

const at = (person: string, clock: string, lane = 1): PlannedBooking => ({
	person,
	station: 'desk',
	lane,
	start: `2027-02-01T${clock}` as never,
	minutes: 8
});

const codes = (bookings: readonly PlannedBooking[]): string[][] =>
	judgeBookings(rollout, bookings).map(({ problems }) => problems.map(({ code }) => code));

describe('judging bookings together', () => {
	test('the turnover keeps two bookings of a lane apart; the later one is told', () => {
		expect(codes([at('a', '08:00'), at('b', '08:10')])).toEqual([[], []]);
		expect(codes([at('a', '08:05'), at('b', '08:00')])).toEqual([['lane-taken'], []]);
	});

	test('the walk back must end inside of the shift', () => {
		expect(codes([at('a', '08:40')])).toEqual([[]]);
		expect(codes([at('a', '08:45')])).toEqual([['not-free']]);
	});

	test('walks count as away, and everybody who is away too many is told', () => {
		const three = [at('a', '08:00'), at('b', '08:00', 2), at('c', '08:15')];
		expect(codes(three)).toEqual([['away-limit'], ['away-limit'], ['away-limit']]);
		expect(codes([at('a', '08:00'), at('b', '08:00', 2), at('c', '08:20')])).toEqual([[], [], []]);
	});
});

describe('judging a move', () => {
	const others = [at('a', '08:00'), at('b', '08:10')];

	test('a place is judged without the booking that moves', () => {
		expect(judgeMove(rollout, others, at('b', '08:20'))).toEqual([]);
		expect(judgeMove(rollout, others, at('b', '08:10'))).toEqual([]);
	});

	test('a collision is told of the one that moves, whichever of the two is later', () => {
		expect(judgeMove(rollout, others, at('b', '08:05'))).toMatchObject([{ code: 'lane-taken', by: 'a' }]);
		expect(judgeMove(rollout, [at('a', '08:10')], at('b', '08:05'))).toMatchObject([{ code: 'lane-taken', by: 'a' }]);
	});
});

test('a placement is explained by its stretch, its walk, its shift and what is wrong with it', () => {
	expect(explainPlacement(rollout, at('a', '08:00'))).toMatchObject({
		stretch: { date: '2027-02-01', at: '08:00-09:00' },
		walkMinutes: 4,
		away: { from: '2027-02-01T07:56:00-06:00', to: '2027-02-01T08:12:00-06:00' },
		free: { from: '2027-02-01T07:00:00-06:00', to: '2027-02-01T08:52:00-06:00' },
		enrollBy: '2027-12-31',
		problems: []
	});
	expect(explainPlacement(rollout, at('a', '08:45'))).toMatchObject({ free: null, problems: [{ code: 'not-free' }] });
	expect(explainPlacement(rollout, { ...at('a', '08:00'), station: 'nowhere' })).toBeUndefined();
});

test('load counts all lanes of a stretch, sessions each lane that is used', () => {
	const bookings = [at('a', '08:00'), at('b', '08:10')];
	expect(stationLoads(rollout, bookings)).toEqual([
		{
			station: 'desk',
			date: '2027-02-01',
			at: '08:00-09:00',
			lanes: 2,
			people: 2,
			openMinutes: 120,
			busyMinutes: 20
		}
	]);
	expect(sessionsOf(rollout, bookings)).toMatchObject([{ station: 'desk', lane: 1, people: 2, busyMinutes: 16 }]);
});
