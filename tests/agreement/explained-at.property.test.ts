import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import check from '../../src/lib/core/answers/check';
import explain from '../../src/lib/core/answers/explain';
import { explainedCodes, findExplainedAt } from '../../src/lib/core/checks/support/explained-at';
import { unwatched } from '../../src/lib/core/kernel/work';
import { AccessOracle } from '../oracles/access-oracle';
import { oneDoor } from '../support/one-door';
import { smallRollouts } from '../support/small-rollouts';
import { rolloutOf } from './agree';

const numRuns = Number(process.env['AGREEMENT_RUNS'] ?? 60);
const seed = Number(process.env['AGREEMENT_SEED'] ?? 20_270_104);

describe('from a finding to its explanation', () => {
	it('leads to a moment at which the door does not open, or opens and cannot be reached', async () => {
		const seen = new Map<string, number>();
		await fc.assert(
			fc.asyncProperty(smallRollouts(8), async (document) => {
				const rollout = rolloutOf(document);
				const answer = await check.run(rollout, {}, unwatched);
				if (!answer.ok) throw new Error('refused');
				for (const { code, subject } of answer.value.findings.filter((found) => explainedCodes.has(found.code))) {
					const asked = findExplainedAt(rollout, code, subject);
					expect(asked?.person).toBe(subject['person']);
					if (!asked || asked.door === null) continue;
					const told = await explain.run(rollout, { ...asked, door: asked.door }, unwatched);
					if (!told.ok) throw new Error('refused');
					const { allowed, blockedBy } = told.value;
					if (code === 'no-route') expect([allowed, blockedBy[0]?.reason]).toEqual([true, 'no-route']);
					else if (isTold(document, asked.at)) expect(allowed).toBe(false);
					seen.set(code, (seen.get(code) ?? 0) + 1);
				}
			}),
			{ numRuns, seed }
		);
		expect([...seen.keys()].sort()).toEqual([...explainedCodes].sort());
	}, 600_000);

	/** A time that the clock shows twice names the first of the two; of one that is uncovered only in the second none is left. */
	function isTold(document: Parameters<typeof rolloutOf>[0], at: string): boolean {
		const { time } = new AccessOracle(document);
		return time.textOf(time.minuteOf(at.slice(0, 10), at.slice(11))).startsWith(at);
	}

	it('names the first uncovered minute of the night on the holiday, and the door', () => {
		// Night shift 22:00 to 06:00 of the 24th, worked on public days; the schedule is closed on the 25th from midnight on.
		const nights = { fri: ['22:00-06:00'], sat: ['22:00-06:00'] };
		const document = oneDoor(
			{ timeZone: 'America/Chicago', from: '2027-12-20', until: '2027-12-26' },
			{ week: nights, holidays: { public: 'closed' } },
			{
				holidays: { coveredUntil: '2027-12-31', days: [{ date: '2027-12-25', kind: 'public' }] },
				people: [{ id: 'p', shiftPattern: 'nights', workAreas: ['hall'] }],
				shiftPatterns: [
					{
						id: 'nights',
						anchor: '2027-12-24',
						cycleDays: 7,
						shifts: [{ day: 0, at: '22:00-06:00' }],
						worksOn: ['public']
					}
				]
			}
		);
		const rollout = rolloutOf(document);
		expect(findExplainedAt(rollout, 'holiday-lockout', { person: 'p' })).toEqual({
			person: 'p',
			door: 'd',
			at: '2027-12-25T00:00'
		});
		expect(findExplainedAt(rollout, 'shift-not-covered', { person: 'p' })).toBeNull();
		expect(findExplainedAt(rollout, 'holiday-lockout', { person: 'q' })).toBeNull();
		expect(findExplainedAt(rollout, 'exit-needs-reader', { door: 'd' })).toBeNull();
	});
});
