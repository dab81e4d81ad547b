import fc from 'fast-check';
import { expect, test } from 'vitest';
import { smallPlan, smallTerms } from '../../../../../tests/support/small-plans';
import { type Booking, type Rollout, rolloutSchema } from '../../document/schema';
import { judgeBookings } from '../judge';
import { EnrollmentModel } from '../model';
import { planEnrollment } from '../plan';
import { acceptedBookings } from './accepted';
import { replan } from './replan';

/** A site in the middle of its plan: the moment of one booking, no-shows among those before it, and a station shut for good. */
const midway = fc
	.record({ terms: smallTerms({ people: 9, stations: 2 }, true), at: fc.nat(8), shut: fc.nat(9), missed: fc.nat(2) })
	.map(({ terms, at, shut, missed }) => {
		const plain = rolloutSchema.parse(smallPlan(terms));
		const planned = planEnrollment(plain, { seconds: 1, seed: 1 }).bookings;
		const bookings = planned.map((booking, place): Booking => {
			return { ...booking, fixed: place % 4 === 1, toldOn: place % 2 ? plain.horizon.from : null, toldOf: null };
		});
		const from = bookings[at % Math.max(1, bookings.length)]?.start;
		const visits = bookings.flatMap(({ person, start }, place) =>
			from !== undefined && start < from && place % 3 !== missed
				? [{ person, station: null, on: start.slice(0, 10), minutes: null, outcome: 'no-show' as const }]
				: []
		);
		const stations = plain.enrollment.stations.map((station) => ({
			...station,
			open: station.open.filter((_, place) => place !== shut)
		}));
		return { from, rollout: { ...plain, enrollment: { ...plain.enrollment, bookings, stations, visits } } as Rollout };
	});

test('accepted, what is over and what is locked stays the same entry, one booking a person, and every rule holds from then on', () => {
	let judged = 0;
	fc.assert(
		fc.property(midway, ({ rollout, from }) => {
			if (from === undefined) return;
			const before = rollout.enrollment.bookings;
			const model = new EnrollmentModel(rollout);
			const plan = replan(rollout, from);
			const after = acceptedBookings(before, plan);
			expect(new Set(after.map(({ person }) => person)).size).toBe(after.length);
			const changed = new Set(plan.changes.map(({ person }) => person));
			const toCome = before.filter(({ start }) => start >= from);
			const valid = new Set(
				judgeBookings(model, toCome).flatMap(({ booking, problems }) => (problems.length === 0 ? [booking.person] : []))
			);
			for (const booking of before) {
				const stays = booking.start < from ? !changed.has(booking.person) : booking.fixed && valid.has(booking.person);
				if (stays) expect(after).toContain(booking);
				if (booking.start >= from && valid.has(booking.person))
					expect(after.map(({ person }) => person)).toContain(booking.person);
			}
			const unlocked = { ...rollout, enrollment: { ...rollout.enrollment, bookings: [] } };
			const made = after as readonly Booking[];
			for (const [place, { problems }] of judgeBookings(unlocked, made).entries())
				if ((made[place] as Booking).start >= from) expect(problems).toEqual([]);
			judged++;
		}),
		{ numRuns: 15 }
	);
	expect(judged).toBeGreaterThan(3);
});
