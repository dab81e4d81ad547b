import { isSameJson } from '$lib/core/document/canonical';
import type { EnrollmentPlan } from '$lib/core/enrollment/plan';
import type { Remedy } from '$lib/core/enrollment/shortfalls';
import { fault } from '$lib/core/kernel/fault';
import { textIn } from '$lib/server/http/forms';
import type { OpenRollout } from '$lib/server/open-rollouts';
import { type Outcome, refuse } from '$lib/server/outcome';
import { getProposal } from '$lib/server/proposals';
import { rolloutAt } from '$lib/server/issues';
import type { Proposal } from '$lib/server/store/proposal-repository';

/**
 * A remedy replaces whole entries as they stood when the plan was made, so it is only made while the rollout is that one, but for
 * the bookings: adopting the plan itself changes nothing that a remedy holds.
 */
export function isRemedyFresh(open: OpenRollout, proposal: Proposal): boolean {
	if (proposal.revision === open.revision) return true;
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

/** The remedy that a form names by its proposal, its proof and its place; refused where it is none, or no longer fits. */
export function remedyIn(open: OpenRollout, form: FormData): Outcome<Remedy> {
	const proposal = getProposal(open.id, Number(textIn(form, 'number')));
	if (!proposal.ok) return proposal;
	const { shortfalls } = proposal.value.value as EnrollmentPlan;
	const remedy = shortfalls[Number(textIn(form, 'shortfall'))]?.remedies[Number(textIn(form, 'remedy'))];
	if (!remedy) return refuse('not-found', fault(['remedy'], textIn(form, 'remedy'), 'a remedy of the proposal'));
	const isFresh = isRemedyFresh(open, proposal.value) && areBookingsSame(open, proposal.value, remedy);
	return isFresh
		? { ok: true, value: remedy }
		: refuse('conflict', fault(['remedy'], remedy.does, 'a remedy for the rollout as it is now: plan once more'));
}

/** Bookings are named by their place in a list that adopting a plan makes anew: what a remedy does to one fits the old list only. */
function areBookingsSame(open: OpenRollout, proposal: Proposal, { edits }: Remedy): boolean {
	if (proposal.revision === open.revision) return true;
	return edits.every(({ params }) => {
		if (params.collection !== 'bookings') return true;
		const now = open.rollout.enrollment.bookings[params.at];
		return isSameJson(now, { ...params.entry, fixed: true });
	});
}
