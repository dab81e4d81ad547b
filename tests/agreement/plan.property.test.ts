import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import planAnswer from '../../src/lib/core/answers/plan';
import { type Rollout, rolloutSchema } from '../../src/lib/core/document/schema';
import { judgeBookings } from '../../src/lib/core/enrollment/judge';
import type { EnrollmentPlan } from '../../src/lib/core/enrollment/plan';
import { unwatched } from '../../src/lib/core/kernel/work';
import { bestGoals, compareGoals, goalsOf, peopleAndSessions } from '../oracles/best-plan';
import { type PlainBooking, PlanOracle } from '../oracles/plan-oracle';
import { ProofOracle } from '../oracles/plan-proofs';
import { planted } from '../support/planted';
import { type SmallTerms, smallPlan, smallTerms } from '../support/small-plans';

// More of them in a night than in a test run: AGREEMENT_RUNS=5000 AGREEMENT_SEED=7 npx vitest run tests/agreement
const numRuns = Number(process.env['AGREEMENT_RUNS'] ?? 150);
const seed = Number(process.env['AGREEMENT_SEED'] ?? 20_270_104);

async function planOf(rollout: Rollout, options = { seconds: 10, seed: 1 }): Promise<EnrollmentPlan> {
	const answer = await planAnswer.run(rollout, options, unwatched);
	if (!answer.ok) throw new Error('the question was refused');
	return answer.value;
}

function rolloutFor(terms: SmallTerms): Rollout {
	return rolloutSchema.parse(smallPlan(terms));
}

/** What is wrong with an answer, whatever its quality: broken rules, people lost, reasons without proof, passed bounds. */
function faultsOf(oracle: PlanOracle, plan: EnrollmentPlan): string[] {
	const faults = oracle.faultsOf(plan.bookings);
	const told = [...plan.bookings, ...plan.unbooked].map(({ person }) => person).sort();
	const expected = oracle.rollout.people.filter((person) => !oracle.isEnrolled(person)).map(({ id }) => id);
	if (JSON.stringify(told) !== JSON.stringify(expected.sort())) faults.push(`told of ${told.join()}`);
	for (const { person: id, reason } of plan.unbooked) {
		const person = oracle.person(id);
		if (person && (reason === 'declined') !== oracle.isDeclined(person)) faults.push(`${id} is not ${reason}`);
		if (reason === 'declined' || reason === 'unproven') continue;
		if (!plan.shortfalls.some((one) => one.kind === reason && one.people.includes(id)))
			faults.push(`${id}: no ${reason}`);
	}
	const fixed = oracle.rollout.enrollment.bookings.filter((booking) => booking.fixed);
	for (const own of plan.bookings) {
		const ofPerson = fixed.filter(({ person }) => person === own.person);
		if (ofPerson.length > 0 && !ofPerson.some((one) => isSame(one, own)))
			faults.push(`${own.person} was fixed elsewhere`);
	}
	const sessions = plan.sessions.map((one) => `${one.station} ${one.lane} ${one.date} ${one.at}`).sort();
	if (JSON.stringify(sessions) !== JSON.stringify(oracle.sessionsOf(plan.bookings)))
		faults.push(`sessions ${sessions.join()}`);
	const { bookings, bounds } = plan;
	if (bounds.bookable < bookings.length || bounds.sessions > sessions.length) faults.push('a bound is passed');
	return faults;
}

function isSame(a: PlainBooking, b: PlainBooking): boolean {
	return (['person', 'station', 'lane', 'start', 'minutes'] as const).every((key) => a[key] === b[key]);
}

describe('a plan', () => {
	it('proves what it says also where time is over at any moment', async () => {
		await fc.assert(
			fc.asyncProperty(
				smallTerms({ people: 10, stations: 2 }),
				fc.integer({ min: 1, max: 400 }),
				async (terms, ticks) => {
					const oracle = new PlanOracle(rolloutFor(terms));
					// A clock that goes on with every look at it, so that the time is over at the same place each time.
					let looks = 0;
					const clock = { ...unwatched, secondsSpent: () => ++looks / 1000 };
					const answer = await planAnswer.run(oracle.rollout, { seconds: ticks / 1000, seed: 1 }, clock);
					if (!answer.ok) throw new Error('the question was refused');
					expect(faultsOf(oracle, answer.value)).toEqual([]);
					const proofs = new ProofOracle(oracle);
					for (const shortfall of answer.value.shortfalls) {
						expect(proofs.faultsOf(shortfall), JSON.stringify(shortfall)).toEqual([]);
						if (shortfall.kind !== 'no-common-time') expect(proofs.canBeShortened(shortfall)).toBe(false);
					}
				}
			),
			{ numRuns, seed }
		);
	});

	it('keeps all eight rules, tells of everybody once, and proves what it says of those left out', async () => {
		const seen = new Set<string>();
		await fc.assert(
			fc.asyncProperty(smallTerms({ people: 10, stations: 2 }), async (terms) => {
				const oracle = new PlanOracle(rolloutFor(terms));
				const plan = await planOf(oracle.rollout);
				expect(faultsOf(oracle, plan)).toEqual([]);
				const proofs = new ProofOracle(oracle);
				for (const shortfall of plan.shortfalls) {
					expect(proofs.faultsOf(shortfall), JSON.stringify(shortfall)).toEqual([]);
					if (shortfall.kind !== 'no-common-time') expect(proofs.canBeShortened(shortfall)).toBe(false);
				}
				for (const { reason } of plan.unbooked) seen.add(reason);
			}),
			{ numRuns, seed }
		);
		// The comparison is worth something only where every reason came up.
		expect([...seen]).toEqual(expect.arrayContaining(['declined', 'no-common-time', 'station-time', 'away-limit']));
	}, 600_000);

	it('is the best of all where it says so, and no plan passes its bounds', async () => {
		let compared = 0;
		await fc.assert(
			fc.asyncProperty(smallTerms({ people: 4, stations: 2 }, true), async (terms) => {
				const oracle = new PlanOracle(rolloutFor(terms));
				const best = bestGoals(oracle, 20_000);
				const least = bestGoals(oracle, 20_000, peopleAndSessions);
				if (!best || !least) return;
				compared++;
				const plan = await planOf(oracle.rollout);
				const [people, sessions] = least as [number, number];
				expect(plan.bounds.bookable).toBeGreaterThanOrEqual(people);
				if (plan.bookings.length === people) expect(plan.bounds.sessions).toBeLessThanOrEqual(0 - sessions);
				const reached = goalsOf(oracle, plan.bookings);
				if (plan.optimal) {
					expect(reached).toEqual(best);
					expect(plan.bounds).toEqual({ bookable: people, sessions: 0 - sessions });
				} else expect(compareGoals(reached, best)).toBeLessThanOrEqual(0);
			}),
			{ numRuns, seed }
		);
		expect(compared).toBeGreaterThan(numRuns / 4);
	}, 600_000);

	it('is the same for the same seed, and books no fewer with another', async () => {
		const { document, bookings } = planted({ people: 150, stations: 3, days: 8, use: 0.95, seed: 4, isTight: true });
		const rollout = rolloutSchema.parse(document);
		const plans = await Promise.all([1, 1, 2].map((one) => planOf(rollout, { seconds: 10, seed: one })));
		expect(plans[1]).toEqual(plans[0]);
		expect(plans[2]?.bookings.length).toBe(bookings);
	});
});

describe('judging bookings', () => {
	it('finds the rules that an evaluation minute by minute finds broken, for any booking', () => {
		const seen = new Set<number>();
		fc.assert(
			fc.property(smallTerms({ people: 6, stations: 2 }), fc.nat(), (terms, salt) => {
				const oracle = new PlanOracle(rolloutFor(terms));
				const bookings = oracle.rollout.people
					.slice(0, 5)
					.map((person, index) => anyBooking(oracle, person.id, salt + 7919 * index));
				const judged = judgeBookings(oracle.rollout, bookings);
				judged.forEach(({ booking, problems }) => {
					// What hangs on other bookings is compared below.
					const alone = problems.filter(({ code }) => !['lane-taken', 'away-limit', 'fixed-moved'].includes(code));
					expect([...new Set(alone.map(({ rule }) => rule))].sort(), JSON.stringify(booking)).toEqual(
						oracle.brokenAlone(booking)
					);
					for (const { rule } of problems) seen.add(rule);
				});
				const codes = judged.flatMap(({ problems }) => problems.map(({ code }) => code));
				const together = oracle.faultsOf(bookings);
				const isOneLane = together.some((fault) => fault.startsWith('rule 2') && fault.includes(' and '));
				expect(codes.includes('lane-taken')).toBe(isOneLane);
				expect(codes.includes('away-limit')).toBe(together.some((fault) => fault.startsWith('rule 6')));
			}),
			{ numRuns: 4 * numRuns, seed }
		);
		expect([...seen].sort()).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
	}, 600_000);
});

/** A booking of a person in or near an open stretch, right in nothing by design. */
function anyBooking(oracle: PlanOracle, person: string, salt: number): PlainBooking {
	let rest = salt;
	const next = (count: number): number => {
		rest = (Math.imul(rest, 1_103_515_245) + 12_345) >>> 0;
		return (rest >>> 8) % count;
	};
	const { stations, gridMinutes, captureClasses } = oracle.rollout.enrollment;
	const station = stations[next(stations.length)] as (typeof stations)[number];
	const open = station.open[next(station.open.length)] as (typeof station.open)[number];
	const begin = Number(open.at.slice(0, 2)) * 60 + Number(open.at.slice(3, 5));
	const off = next(8) === 0 ? 1 : 0;
	const minute = ((Math.ceil(begin / gridMinutes) + next(8) - 1) * gridMinutes + off + 1440) % 1440;
	const clock = new Date(minute * 60_000).toISOString().slice(11, 16);
	const minutes = captureClasses[next(captureClasses.length)]?.minutes ?? 8;
	return {
		person,
		station: station.id,
		lane: 1 + next(station.lanes + 1),
		start: `${open.date}T${clock}` as never,
		minutes
	};
}
