import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AccessOracle } from '../oracles/access-oracle';
import { all } from '../oracles/plain-rollout';
import { smallRollouts } from '../support/small-rollouts';
import { accessDisagreement, checkDisagreement, compareDisagreement, explainDisagreement } from './agree';

// More in a night than in a test run: AGREEMENT_RUNS=5000 AGREEMENT_SEED=7 npx vitest run tests/agreement
const numRuns = Number(process.env['AGREEMENT_RUNS'] ?? 80);
const seed = Number(process.env['AGREEMENT_SEED'] ?? 20_270_104);

describe('the core agrees with an evaluation minute by minute', () => {
	it('check: codes, subjects, dates, counts', async () => {
		await fc.assert(
			fc.asyncProperty(smallRollouts(), async (document) => {
				expect(await checkDisagreement(document)).toBeUndefined();
			}),
			{ numRuns, seed }
		);
	}, 600_000);

	it('check: over forty days, in which a clock can change twice', async () => {
		await fc.assert(
			fc.asyncProperty(smallRollouts(40), async (document) => {
				expect(await checkDisagreement(document)).toBeUndefined();
			}),
			{ numRuns: Math.ceil(numRuns / 4), seed }
		);
	}, 600_000);

	it('access: spans of every person at every door, also beyond the horizon', async () => {
		await fc.assert(
			fc.asyncProperty(
				smallRollouts(8),
				fc.integer({ min: -3, max: 3 }),
				fc.integer({ min: 0, max: 12 }),
				async (document, shift, length) => {
					for (const person of all(document.people)) {
						expect(await accessDisagreement(document, person.id, shift, length)).toBeUndefined();
					}
				}
			),
			{ numRuns, seed }
		);
	}, 600_000);

	it('explain: allowed, because, route, next time allowed, reasons', async () => {
		const moments = fc.array(
			fc.record({
				person: fc.nat(),
				door: fc.nat(),
				day: fc.integer({ min: 0, max: 8 }),
				minute: fc.oneof(
					fc.integer({ min: 0, max: 1439 }),
					fc.constantFrom(0, 1, 30, 59, 60, 90, 119, 120, 150, 180, 1380, 1381, 1410, 1439)
				)
			}),
			{ minLength: 4, maxLength: 8 }
		);
		await fc.assert(
			fc.asyncProperty(smallRollouts(8), moments, async (document, list) => {
				const oracle = new AccessOracle(document);
				for (const moment of list) {
					expect(await explainDisagreement(oracle, moment)).toBeUndefined();
				}
			}),
			{ numRuns, seed }
		);
	}, 600_000);

	it('compare: minutes gained and lost', async () => {
		await fc.assert(
			fc.asyncProperty(smallRollouts(6), fc.nat(), fc.boolean(), async (document, pick, isRemoval) => {
				expect(await compareDisagreement(document, pick, isRemoval)).toBeUndefined();
			}),
			{ numRuns, seed }
		);
	}, 600_000);
});
