import fc from 'fast-check';
import { expect, test } from 'vitest';
import retention from '$lib/core/answers/retention';
import { localDate } from '$lib/core/calendar/local-date';
import { readValue } from '$lib/core/document/read';
import { unwatched } from '$lib/core/kernel/work';
import { rulePacks } from '$lib/core/privacy/packs';
import { retentionByHand } from '../oracles/retention-oracle';
import { poolDate, retentionDocument } from '../support/retention-arbitrary';

function byRule(candidates: readonly { rule: string; trigger: string; triggerDate: string; eraseBy: string }[]) {
	return candidates.map((one) => [one.rule, one.trigger, one.triggerDate, one.eraseBy].join(' ')).sort();
}

test('the retention answer is that of the reckoning by hand, on any rollout and day', async () => {
	const seen = new Set<string>();
	await fc.assert(
		fc.asyncProperty(retentionDocument, poolDate, async (document, on) => {
			const read = readValue(JSON.parse(JSON.stringify(document)), { regimes: rulePacks.keys() });
			if (!read.ok) throw new Error(read.faults.map((fault) => fault.message).join('\n'));
			const answer = await retention.run(read.value.rollout, { on: localDate(on) }, unwatched);
			if (!answer.ok) throw new Error('the question was refused');
			const expected = retentionByHand(document, on);
			expect(
				answer.value.templates.map(({ candidates, ...rest }) => ({ ...rest, candidates: byRule(candidates) }))
			).toEqual(expected.templates.map(({ candidates, ...rest }) => ({ ...rest, candidates: byRule(candidates) })));
			const problems = answer.value.consentProblems.map(({ code, person }) =>
				person === null ? code : `${code} ${person}`
			);
			expect(problems.toSorted()).toEqual(expected.problems.toSorted());
			expect(retention.isBad(answer.value)).toBe(expected.templates.some(({ state }) => state === 'overdue'));
			for (const { state, rule } of expected.templates) seen.add(state).add(rule ?? 'no rule');
			for (const problem of expected.problems) seen.add(problem.split(' ')[0] ?? '');
		}),
		{ numRuns: 2000 }
	);
	// The comparison is worth something only where every state, governing rule and problem came up.
	const wanted = [
		'kept due overdue held erased',
		'us-il/purpose-ended us-il/three-years us-tx/one-year us-co/purpose-ended us-co/two-years us-co/forty-five-days',
		'eu/purpose-ended uk/purpose-ended fr/authorization-ended ca-qc/purpose-ended site/days-after-leaving site/days-unused',
		'consent-missing consent-after-enrollment consent-notice-outdated consent-withdrawn leaver-template-left',
		'erased-before-enrolled consent-in-future retention-period-missing',
		'no rule'
	];
	expect([...seen]).toEqual(expect.arrayContaining(wanted.slice(0, -1).flatMap((line) => line.split(' '))));
	expect(seen).toContain('no rule');
});
