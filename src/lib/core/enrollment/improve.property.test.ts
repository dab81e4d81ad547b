import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type PlantedTerms, planted } from '../../../../tests/support/planted';
import { smallPlan, smallTerms } from '../../../../tests/support/small-plans';
import { type Rollout, rolloutSchema } from '../document/schema';
import { unwatched } from '../kernel/work';
import { Board, type Lane } from './board';
import { exactPlan } from './exact';
import { FinerBound } from './finer-bound';
import { fixedBookings } from './fixed';
import { improve, waitingOn } from './improve';
import { instanceOf } from './instance';
import { judgeBookings } from './judge';
import { EnrollmentModel } from './model';
import { bookingsOf } from './board-bookings';
import { ProofSpace } from './proof-space';
import { boundSessions } from './session-bound';

const never = (): boolean => false;

function boardsFor(rollout: Rollout) {
	const model = new EnrollmentModel(rollout);
	const fixed = fixedBookings(model);
	const instance = instanceOf(model, fixed, 'strict');
	return {
		model,
		fixed,
		instance,
		exact: new Board(instance),
		found: new Board(instance),
		space: new ProofSpace(instance)
	};
}

/** The plan for many people, made for few, beside the best there is. */
function compare(rollout: Rollout): { readonly missed: number; readonly more: number } | undefined {
	const { model, fixed, instance, exact, found, space } = boardsFor(rollout);
	const best = exactPlan(exact, waitingOn(exact), never);
	if (!best) return undefined;
	const standing = exact.sessionsUsed;
	for (const { person, lane, slot } of best.bookings)
		exact.place(person, lane, (exact.lanes[lane] as Lane).base + slot);
	const { fewestSessions } = improve(found, space, { seconds: 10, seed: 1 }, unwatched);
	const judged = judgeBookings(model, [...fixed.valid, ...bookingsOf(found)]);
	expect(judged.flatMap(({ problems }) => problems)).toEqual([]);
	expect(found.booked).toBeLessThanOrEqual(exact.booked);
	const least = standing + best.fewestSessions;
	const bound = boundSessions(space, exact.booked, instance.people.length, never);
	expect(bound.fewest).toBeLessThanOrEqual(least);
	const finer = FinerBound.of(space, exact.booked, bound)?.improve(instance.people.length, 2e5, never);
	expect(finer).toBeGreaterThanOrEqual(bound.fewest);
	expect(finer).toBeLessThanOrEqual(least);
	if (found.booked < exact.booked) return { missed: exact.booked - found.booked, more: 0 };
	expect(fewestSessions).toBeLessThanOrEqual(least);
	return { missed: 0, more: Math.max(0, found.sessionsUsed - exact.sessionsUsed) };
}

describe('the plan for many people, on puzzles so small that the best is known', () => {
	test('is valid, passes no bound, and misses hardly anybody', () => {
		let [puzzles, missed, more] = [0, 0, 0];
		fc.assert(
			fc.property(smallTerms({ people: 9, stations: 2 }), (terms) => {
				const result = compare(rolloutSchema.parse(smallPlan(terms)));
				if (!result) return;
				puzzles++;
				missed += result.missed;
				more += result.more;
			}),
			{ numRuns: 150, seed: 3 }
		);
		expect(puzzles).toBeGreaterThan(100);
		expect(missed).toBeLessThanOrEqual(puzzles / 50);
		expect(more).toBeLessThanOrEqual(puzzles / 50);
	});

	test.each<Partial<PlantedTerms>>([
		{ use: 1, stretches: ['09:00-09:50', '13:00-13:45', '20:00-20:30'] },
		{ use: 1, isTight: true, classes: [7, 12, 18], stretches: ['09:00-10:00', '20:00-20:45'] },
		{ use: 0.8, isTight: true, withLimits: true, departments: 3, stretches: ['09:00-09:50', '20:00-20:30'] }
	])('books everybody for whom a plan is known: %o', (terms) => {
		for (let seed = 0; seed < 10; seed++) {
			const { document } = planted({ people: 11, stations: 2, days: 10, use: 1, seed, ...terms });
			const result = compare(rolloutSchema.parse(document));
			if (result) expect(result.missed).toBe(0);
		}
	});
});

describe('where a plan for everybody is known', () => {
	test.each<PlantedTerms>([
		{ people: 300, stations: 3, days: 14, use: 0.97, seed: 1, isTight: true },
		{ people: 300, stations: 3, days: 14, use: 0.97, seed: 2, isTight: true, withLimits: true },
		{ people: 400, stations: 4, days: 14, use: 0.97, seed: 3, grid: 1, classes: [7, 9, 14], lanes: 2 },
		{ people: 500, stations: 4, days: 20, use: 1, seed: 4, classes: [8], isTight: true }
	])('everybody is booked, in sessions near the bound: %o', (terms) => {
		const { document, bookings } = planted(terms);
		const { found, space } = boardsFor(rolloutSchema.parse(document));
		const { fewestSessions } = improve(found, space, { seconds: 10, seed: 1 }, unwatched);
		expect(found.booked).toBe(bookings);
		expect(found.sessionsUsed).toBeLessThanOrEqual(Math.max(1.05 * fewestSessions, fewestSessions + 1));
	});
});
