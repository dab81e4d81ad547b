import fc from 'fast-check';
import { expect, it } from 'vitest';
import { applyEdit } from '../../src/lib/core/edits';
import { type Rollout, type RolloutDocument, rolloutSchema } from '../../src/lib/core/document/schema';
import { planEnrollment } from '../../src/lib/core/enrollment/plan';
import { priceOf } from '../../src/lib/core/enrollment/remedies/price';
import type { Remedy } from '../../src/lib/core/enrollment/shortfalls';
import { whatIf } from '../../src/lib/core/enrollment/what-if';
import { PlanOracle } from '../oracles/plan-oracle';
import { smallPlan, smallTerms } from '../support/small-plans';

const numRuns = Number(process.env['AGREEMENT_RUNS'] ?? 60);
const seed = Number(process.env['AGREEMENT_SEED'] ?? 20_270_104);
const options = { seconds: 10, seed: 1 };

/** The document once the edits of a remedy are made, by the way that everybody's changes go. */
function mended(document: RolloutDocument, remedy: Remedy): Rollout {
	let read = { document, rollout: rolloutSchema.parse(document) };
	for (const { edit, params } of remedy.edits) {
		const result = applyEdit(read, edit, params);
		if (!result.ok) throw new Error(JSON.stringify(result.faults));
		read = result.value;
	}
	return read.rollout;
}

it('every remedy, applied to the document and planned again, books everybody of its shortfall and costs nobody their place; few have none, and say why', () => {
	const kinds = new Set<string>();
	const count = { tried: 0, shortfalls: 0, without: 0, givenUp: 0, together: 0 };
	fc.assert(
		fc.property(smallTerms({ people: 10, stations: 2 }), (terms) => {
			const document = smallPlan(terms);
			const rollout = rolloutSchema.parse(document);
			const { bookings: planned, unbooked, shortfalls, together } = planEnrollment(rollout, options);
			const left = new Set(unbooked.map(({ person }) => person));
			// Everybody whom some remedy helps is helped by the changes that are told for all together.
			const helped = new Set(shortfalls.flatMap(({ people, remedies }) => (remedies.length > 0 ? people : [])));
			if (together) {
				const { bookings } = planEnrollment(mended(document, together.remedy), { seconds: 10, seed: 5 });
				const booked = new Set(bookings.map(({ person }) => person));
				expect(
					[...helped].filter((id) => !booked.has(id)),
					together.remedy.does
				).toEqual([]);
				expect(booked.size, together.remedy.does).toBeGreaterThanOrEqual(planned.length + together.people.length);
				count.together++;
			} else expect(helped.size).toBe(0);
			for (const shortfall of shortfalls) {
				const costs = shortfall.remedies.map(({ cost }) => cost);
				expect(costs).toEqual([...costs].sort((a, b) => a - b));
				count.shortfalls++;
				if (shortfall.remedies.length === 0) {
					count.without++;
					if (shortfall.noRemedy?.startsWith('No longer stretch') === true) count.givenUp++;
					else expect(shortfall.noRemedy).toMatch(/^(No remedy: .+|A fixed booking .+)[.]$/u);
				} else expect(shortfall.noRemedy).toBeUndefined();
				for (const remedy of shortfall.remedies) {
					count.tried++;
					expect(remedy.cost).toBe(priceOf(remedy.takes, rollout.enrollment.costs));
					expect(remedy.takes.stationMinutes + remedy.takes.awayMinutes >= 0 && remedy.cost > 0).toBe(true);
					const changed = mended(document, remedy);
					const { bookings } = planEnrollment(changed, { seconds: 10, seed: 1 + (count.tried % 3) });
					expect(new PlanOracle(changed).faultsOf(bookings)).toEqual([]);
					const booked = new Set(bookings.map(({ person }) => person));
					expect(
						shortfall.people.filter((id) => !booked.has(id)),
						remedy.does
					).toEqual([]);
					// Nobody who was booked gives up their place for it.
					const missing = shortfall.people.filter((id) => left.has(id)).length;
					expect(booked.size, remedy.does).toBeGreaterThanOrEqual(planned.length + missing);
					for (const kind of remedy.kinds) kinds.add(`${shortfall.kind}: ${kind}`);
				}
			}
		}),
		{ numRuns, seed }
	);
	expect(count.tried).toBeGreaterThan(numRuns);
	expect(count.together).toBeGreaterThan(numRuns / 2);
	expect(count.without).toBeLessThan(0.15 * count.shortfalls);
	expect(count.givenUp).toBeLessThan(0.03 * count.shortfalls);
	expect([...kinds]).toEqual(
		expect.arrayContaining([
			'no-common-time: open-longer',
			'no-common-time: open-anew',
			'no-common-time: due-date',
			'no-common-time: serve-need',
			'no-common-time: let-move',
			'station-time: open-longer',
			'station-time: one-more-lane',
			'away-limit: away-limit'
		])
	);
}, 600_000);

it('what if stands beside what is, and changes nothing', () => {
	const document = smallPlan({ seed: 4, people: 10, stations: 2, isPlain: true });
	const rollout = rolloutSchema.parse(document);
	const before = JSON.stringify(rollout);
	const shortfall = planEnrollment(rollout, options).shortfalls.find(({ remedies }) => remedies.length > 0);
	const { now, then } = whatIf(rollout, shortfall?.remedies[0]?.edits ?? [], options);
	expect(then.booked).toBeGreaterThan(now.booked);
	expect(JSON.stringify(rollout)).toBe(before);
});
