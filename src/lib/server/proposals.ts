import { z } from 'zod';
import { fault } from '../core/kernel/fault';
import { type Changed, editRollout } from './change-rollouts';
import { needRollout } from './open-rollouts';
import { type Outcome, refuse } from './outcome';
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
