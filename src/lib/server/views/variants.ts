import { type WhatIf, figureRows } from '$lib/core/answers/what-if';
import type { EntryChange } from '$lib/core/enrollment/remedies/entry-change';
import { fault } from '$lib/core/kernel/fault';
import type { OpenRollout } from '$lib/server/open-rollouts';
import { type Outcome, refuse } from '$lib/server/outcome';
import { getProposal, listProposals } from '$lib/server/proposals';
import { isSameButCosts } from './remedy';
import { changesText } from './what-if';

/** So many variants stand side by side; earlier ones are kept and come back when one is discarded. */
const mostShown = 4;

/** Variants that were tried, the latest first, each beside the plan as it was then: the figures line by line. */
export function variantsView(open: OpenRollout) {
	const found = listProposals(open.id)
		.filter(({ answer }) => answer === 'what-if')
		.flatMap(({ number }) => {
			const proposal = getProposal(open.id, number);
			return proposal.ok ? [proposal.value] : [];
		})
		// Those of an earlier version lack some figures.
		.filter(({ value }) => 'reasons' in (value as WhatIf).then);
	const shown = found.slice(0, mostShown);
	const [latest] = shown;
	if (!latest) return null;
	const figures = [(latest.value as WhatIf).now, ...shown.map(({ value }) => (value as WhatIf).then)];
	return {
		variants: shown.map(({ number, params, seconds, isStoppedEarly, revision }) => ({
			number,
			changes: changesText(open.rollout, params),
			seconds,
			isStoppedEarly,
			isFresh: isSameButCosts(open, revision)
		})),
		more: found.length - shown.length,
		rows: figureRows(figures)
	};
}

/** The changes of a variant, to be made; refused where the rollout is another by now, since they replace whole entries. */
export function variantChanges(
	open: OpenRollout,
	number: number
): Outcome<{ readonly edits: readonly EntryChange[]; readonly what: string }> {
	const proposal = getProposal(open.id, number);
	if (!proposal.ok) return proposal;
	const { params, revision, answer } = proposal.value;
	if (answer !== 'what-if') return refuse('not-found', fault(['number'], number, 'the number of a variant'));
	if (!isSameButCosts(open, revision)) {
		return refuse('conflict', fault(['number'], number, 'a variant for the rollout as it is now: try it once more'));
	}
	const edits = JSON.parse((params as { edits: string }).edits) as EntryChange[];
	return { ok: true, value: { edits, what: `What if: ${changesText(open.rollout, params).join('; ').slice(0, 300)}` } };
}
