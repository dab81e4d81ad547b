import fc from 'fast-check';
import { expect, test } from 'vitest';
import { smallPlan, smallTerms } from '../../../../../tests/support/small-plans';
import type { LocalDateTime } from '../../calendar/local-date-time';
import { type Booking, type Rollout, rolloutSchema } from '../../document/schema';
import { compareGoals, startsInLanes } from '../../../../../tests/oracles/best-plan';
import { type PlainBooking, PlanOracle } from '../../../../../tests/oracles/plan-oracle';
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
			toldOn: place % 3 === 0 ? rollout.horizon.from : null,
			toldOf: null
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

/** Everything that can be done for those who wait, tried: the least people left over, told anew and moved, in this order. */
function leastUpset(rollout: Rollout, most: number): readonly number[] | undefined {
	const oracle = new PlanOracle({ ...rollout, enrollment: { ...rollout.enrollment, bookings: [] } });
	const valid = judgeBookings(rollout, rollout.enrollment.bookings).flatMap(({ booking, problems }, place) =>
		problems.length === 0 ? [{ ...booking, ...(rollout.enrollment.bookings[place] as Booking) }] : []
	);
	const standing = new Map(valid.map((booking) => [booking.person, booking]));
	const choices = rollout.people
		.filter((person) => !oracle.isDeclined(person) && !oracle.isEnrolled(person))
		.map((person) => {
			const before = standing.get(person.id);
			const places = before?.fixed ? [before] : startsInLanes(oracle, person);
			return { before, places };
		});
	if (choices.reduce((ways, { places }) => ways * (places.length + 1), 1) > most) return undefined;
	let best: readonly number[] = [Infinity];
	const chosen: PlainBooking[] = [];
	const go = (index: number, upset: readonly [number, number, number]): void => {
		if (compareGoals(upset, best) >= 0) return;
		const choice = choices[index];
		if (!choice) {
			if (oracle.faultsOf(chosen).length === 0) best = upset;
			return;
		}
		const { before, places } = choice;
		for (const place of places) {
			if (chosen.some((other) => !oracle.goTogether(other, place))) continue;
			const isAnew = before !== undefined && (before.start !== place.start || before.station !== place.station);
			const isMoved = before !== undefined && (isAnew || before.lane !== place.lane);
			chosen.push(place);
			go(index + 1, [upset[0], upset[1] + Number(isAnew && before.toldOn !== null), upset[2] + Number(isMoved)]);
			chosen.pop();
		}
		// Nobody loses the booking they have.
		if (!before) go(index + 1, [upset[0] + 1, upset[1], upset[2]]);
	};
	go(0, [0, 0, 0]);
	return best;
}

test('on small cases no plan that leaves fewer out, tells fewer anew or moves fewer is to be had', () => {
	let judged = 0;
	fc.assert(
		fc.property(disturbed, (rollout) => {
			const least = leastUpset(rollout, 30_000);
			if (!least) return;
			judged++;
			const { unbooked, toldAnew, moved } = replan(rollout, longAgo);
			expect([unbooked.length, toldAnew, moved]).toEqual(least);
		}),
		{ numRuns: 60 }
	);
	expect(judged).toBeGreaterThan(10);
});
