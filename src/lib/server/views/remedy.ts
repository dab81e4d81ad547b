import { isSameJson } from '$lib/core/document/canonical';
import type { EnrollmentPlan } from '$lib/core/enrollment/plan';
import type { Remedy } from '$lib/core/enrollment/shortfalls';
import { fault } from '$lib/core/kernel/fault';
import { textIn } from '$lib/server/http/forms';
import type { OpenRollout } from '$lib/server/open-rollouts';
import { type Outcome, refuse } from '$lib/server/outcome';
import { getProposal } from '$lib/server/proposals';
import { rolloutAt } from '$lib/server/issues';
import { store } from '$lib/server/store/current';
import type { Proposal } from '$lib/server/store/proposal-repository';

/**
 * A remedy replaces whole entries as they stood when the plan was made, so it is only made while the rollout is that one, but for
 * the bookings: adopting the plan itself changes nothing that a remedy holds.
 */
export function isRemedyFresh(open: OpenRollout, proposal: Proposal): boolean {
	if (isSameButCosts(open, proposal.revision)) return true;
	if (proposal.adoptedBy === null) return false;
	const adopted = rolloutAt(open, proposal.adoptedBy);
	if (!adopted.ok) return false;
	const { stations, waves, awayLimits } = open.rollout.enrollment;
	const { enrollment } = adopted.value;
	return (
		isSameJson(stations, enrollment.stations) &&
		isSameJson(waves, enrollment.waves) &&
		isSameJson(awayLimits, enrollment.awayLimits)
	);
}

/** True where nothing but the cost table was changed since a revision: what was found still holds, at another price. */
export function isSameButCosts(open: OpenRollout, revision: string): boolean {
	if (revision === open.revision) return true;
	const rows = store().changes.list(open.id, Number.MAX_SAFE_INTEGER, mostCostChanges);
	for (const row of rows) {
		if (row.revision === revision) return true;
		const part = row.edit === 'set-part' ? (row.params as { part?: unknown } | null)?.part : undefined;
		if (part !== 'enrollment.costs') return false;
	}
	return rows.length < mostCostChanges;
}

const mostCostChanges = 50;

/** The remedy that a form names by its proposal, its proof and its place; refused where it is none, or no longer fits. */
export function remedyIn(open: OpenRollout, form: FormData): Outcome<Remedy> {
	const proposal = getProposal(open.id, Number(textIn(form, 'number')));
	if (!proposal.ok) return proposal;
	const { shortfalls, together } = proposal.value.value as EnrollmentPlan;
	const place = textIn(form, 'shortfall');
	const remedy =
		place === 'together' ? together?.remedy : shortfalls[Number(place)]?.remedies[Number(textIn(form, 'remedy'))];
	if (!remedy) return refuse('not-found', fault(['remedy'], textIn(form, 'remedy'), 'a remedy of the proposal'));
	const isFresh = isRemedyFresh(open, proposal.value) && areBookingsSame(open, proposal.value, remedy);
	return isFresh
		? { ok: true, value: remedy }
		: refuse('conflict', fault(['remedy'], remedy.does, 'a remedy for the rollout as it is now: plan once more'));
}

/** Bookings are named by their place in a list that adopting a plan makes anew: what a remedy does to one fits the old list only. */
function areBookingsSame(open: OpenRollout, proposal: Proposal, { edits }: Remedy): boolean {
	if (isSameButCosts(open, proposal.revision)) return true;
	return edits.every(({ params }) => {
		if (params.collection !== 'bookings') return true;
		const now = open.rollout.enrollment.bookings[params.at];
		return isSameJson(now, { ...params.entry, fixed: true });
	});
}
