import fc from 'fast-check';
import { expect, test } from 'vitest';
import { smallPlan, smallTerms } from '../../../../../tests/support/small-plans';
import type { LocalDateTime } from '../../calendar/local-date-time';
import { type Rollout, rolloutSchema } from '../../document/schema';
import { judgeBookings } from '../judge';
import { planEnrollment } from '../plan';
import { replan } from './replan';

/** A rollout whose plan was adopted, some of it locked and told, and that lost a person's presence and a stretch since. */
const disturbed = fc
	.record({ terms: smallTerms({ people: 9, stations: 2 }), absent: fc.nat(8), locked: fc.nat(3), closed: fc.nat(5) })
	.map(({ terms, absent, locked, closed }): Rollout => {
		const rollout = rolloutSchema.parse(smallPlan(terms));
		const { bookings } = planEnrollment(rollout, { seconds: 1, seed: 1 });
		const kept = bookings.map((booking, place) => ({
			...booking,
			fixed: place % 4 === locked,
			toldOn: place % 3 === 0 ? rollout.horizon.from : null
		}));
		const stations = rollout.enrollment.stations.map((station) => ({
			...station,
			open: station.open.filter((_, place) => place !== closed)
		}));
		const person = rollout.people[absent];
		return {
			...rollout,
			absences: [
				...rollout.absences,
				...(person ? [{ person: person.id, from: null, until: rollout.horizon.from }] : [])
			],
			enrollment: { ...rollout.enrollment, bookings: kept, stations }
		};
	});

const longAgo = '1990-01-01T00:00' as LocalDateTime;

test('a plan made anew is valid, keeps what is fixed and valid, and leaves nobody out who was booked and still can be', () => {
	fc.assert(
		fc.property(disturbed, (rollout) => {
			const plan = replan(rollout, longAgo);
			const judged = judgeBookings(rollout, rollout.enrollment.bookings);
			const valid = judged.flatMap(({ problems }, place) =>
				problems.length === 0 ? [rollout.enrollment.bookings[place] as Rollout['enrollment']['bookings'][number]] : []
			);
			const after = new Map(plan.bookings.map((booking) => [booking.person, booking]));
			for (const booking of valid) {
				expect(after.has(booking.person)).toBe(true);
				if (booking.fixed) expect(after.get(booking.person)).toEqual(booking);
			}
			// Locks of bookings that no longer hold would count as moved fixed ones; they are judged without.
			const unlocked: Rollout = { ...rollout, enrollment: { ...rollout.enrollment, bookings: [] } };
			expect(judgeBookings(unlocked, plan.bookings).flatMap(({ problems }) => problems)).toEqual([]);
			const changed = new Set(plan.changes.map(({ person }) => person));
			for (const booking of valid) {
				const same = after.get(booking.person);
				expect(changed.has(booking.person)).toBe(
					same?.start !== booking.start || same.station !== booking.station || same.lane !== booking.lane
				);
			}
			expect(plan.kept + plan.changes.filter(({ after: to }) => to !== null).length).toBe(plan.bookings.length);
			if (plan.moved > 0)
				expect(plan.changes.some(({ why, after: to }) => why.kind !== 'made-room' && to !== null)).toBe(true);
		}),
		{ numRuns: 60 }
	);
});
