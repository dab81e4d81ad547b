import { fault } from '../../core/kernel/fault';
import type { Rollout } from '../../core/document/schema';
import { type DirectoryProposal, acceptanceOf, areManyLeaving, proposalOf } from '../../core/roster/scim/proposal';
import { type Changed, editRollout } from '../change-rollouts';
import { todayAt } from '../clock';
import { type OpenRollout, getRollout } from '../open-rollouts';
import { type Outcome, refuse } from '../outcome';
import { store } from '../store/current';
import { directoryOf, entriesOf } from './directory';

const proposed = new WeakMap<Rollout, { readonly state: readonly unknown[]; readonly proposal: DirectoryProposal }>();

/** What identity providers sent and nobody has taken over or set aside yet. Kept for as long as nothing of it changes. */
export function directoryProposal({ id, rollout }: OpenRollout): DirectoryProposal {
	const state = directoryOf(id);
	const known = proposed.get(rollout);
	if (known?.state === state) return known.proposal;
	const proposal = proposalOf(entriesOf(id), rollout);
	proposed.set(rollout, { state, proposal });
	return proposal;
}

/** Takes over what is proposed, for some people or for everybody, as one change that can be taken back. */
export function acceptDirectory(open: OpenRollout, who: string, only?: ReadonlySet<string>): Outcome<Changed> {
	const acceptance = acceptanceOf(directoryProposal(open), only);
	if (!acceptance) return refuse('conflict', fault(['people'], null, 'a proposed change; there is none any more'));
	return editRollout(open.id, 'all-of', acceptance, who, open.revision);
}

/** Sets aside what is proposed of a person, until the provider says something new of it. */
export function setDirectoryAside(rollout: string, person: string): void {
	store().directory.setAside(rollout, person);
}

/**
 * Applies what just arrived of one person, where the site chose so. What cannot be applied stays proposed: the provider has said
 * what it had to say, and a person decides. So does a leaver by whom half of the people would leave on one day.
 */
export function applyAtOnce(rollout: string, person: string, label: string): void {
	const open = getRollout(rollout);
	if (!open || !store().directory.settings(rollout).isApplied) return;
	const own = entriesOf(rollout).filter((entry) => entry.person === person);
	const proposal = proposalOf(own, open.rollout);
	if (proposal.changes.left.some((one) => one.person === person) && isMassLeaving(open)) return;
	const acceptance = acceptanceOf(proposal, new Set([person]));
	if (acceptance) editRollout(rollout, 'all-of', acceptance, `identity provider (${label})`);
}

/** Counted are those whose last day is today, and this one. */
function isMassLeaving({ rollout }: OpenRollout): boolean {
	const today = todayAt(rollout.site.timeZone);
	const leaving = rollout.people.filter(({ leavesOn }) => leavesOn === today).length + 1;
	const employed = rollout.people.filter(({ leavesOn }) => leavesOn === null || leavesOn >= today).length;
	return areManyLeaving(leaving, employed);
}
