import { z } from 'zod';
import { fieldOf } from '../core/document/walk';
import { acceptedBookings } from '../core/enrollment/replan/accepted';
import type { Replan } from '../core/enrollment/replan/replan';
import { fault } from '../core/kernel/fault';
import { type Changed, editRollout } from './change-rollouts';
import { needRollout } from './open-rollouts';
import { type Outcome, refuse } from './outcome';
import { completed } from './views/replan';
import { store } from './store/current';
import type { Proposal, ProposalRow } from './store/proposal-repository';

/** What long work found for a rollout, the latest first. */
export function listProposals(rollout: string): readonly ProposalRow[] {
	return store().proposals.list(rollout);
}

/** A proposal with its answer. */
export function getProposal(rollout: string, number: number): Outcome<Proposal> {
	const open = needRollout(rollout);
	if (!open.ok) return open;
	const proposal = store().proposals.find(rollout, number);
	return proposal
		? { ok: true, value: proposal }
		: refuse('not-found', fault(['proposal'], number, 'the number of a proposal'));
}

/** What of an answer can be adopted. */
const adoptable = z.looseObject({ bookings: z.array(z.looseObject({})) });

/**
 * Adopts a proposed plan: its bookings take the place of those in the document, as one change. Refused when the document
 * is another by now, unless `isOutdatedFine`: a plan for an earlier state may break a rule that it held then.
 */
export function adoptProposal(rollout: string, number: number, who: string, isOutdatedFine = false): Outcome<Changed> {
	const proposal = getProposal(rollout, number);
	if (!proposal.ok) return proposal;
	const parsed = adoptable.safeParse(proposal.value.value);
	if (!parsed.success) {
		return refuse('conflict', fault(['proposal'], number, 'a proposal with bookings, such as a plan'));
	}
	const ifRevision = isOutdatedFine ? undefined : proposal.value.revision;
	const changed = editRollout(rollout, 'set-bookings', { bookings: parsed.data.bookings }, who, ifRevision);
	if (changed.ok && changed.value.change) store().proposals.setAdopted(rollout, number, changed.value.change.number);
	return changed;
}

/**
 * Accepts a plan made anew, as one change: what is over and what stays keeps its entries. Refused when the rollout is another by now,
 * since what was proposed may break a rule that it held then.
 */
export function acceptReplan(rollout: string, number: number, who: string): Outcome<Changed> {
	const proposal = getProposal(rollout, number);
	if (!proposal.ok) return proposal;
	const { answer, value, params, revision, adoptedBy } = proposal.value;
	if (answer !== 'replan' || adoptedBy !== null) {
		return refuse('conflict', fault(['proposal'], number, 'a plan made anew that was not accepted yet'));
	}
	const open = needRollout(rollout);
	if (!open.ok) return open;
	const plan = completed(value as Replan);
	const bookings = acceptedBookings(open.value.document.enrollment?.bookings ?? [], plan);
	const from = String(fieldOf(params, 'from')).replace('T', ' ');
	const what = `Planned anew from ${from}: ${plan.changes.length} changes, ${plan.moved} of them moves for others`;
	const edits = [{ edit: 'set-bookings', params: { bookings } }];
	const changed = editRollout(rollout, 'all-of', { edits, what }, who, revision);
	if (changed.ok && changed.value.change) store().proposals.setAdopted(rollout, number, changed.value.change.number);
	return changed;
}

/** Removes a proposal; one that was adopted stays, as part of the history. */
export function discardProposal(rollout: string, number: number): Outcome<null> {
	const proposal = getProposal(rollout, number);
	if (!proposal.ok) return proposal;
	if (proposal.value.adoptedBy !== null) {
		return refuse('conflict', fault(['proposal'], number, 'a proposal that was not adopted'));
	}
	store().proposals.remove(rollout, number);
	return { ok: true, value: null };
}
