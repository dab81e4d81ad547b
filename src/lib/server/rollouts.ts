/**
 * Everything that sheets and the API do with rollouts, in one place. Functions that can be refused give an `Outcome`:
 * a value, or every fault with the kind of refusal. `who` is the name for the change record.
 */
export { answer, ask } from './answers';
export {
	type Changed,
	type ChangeDetail,
	editRollout,
	getChange,
	listChanges,
	redo,
	undo,
	undoState
} from './change-rollouts';
export {
	type NewRollout,
	type RolloutSummary,
	createRollout,
	daysRestorable,
	deleteRollout,
	eraseRollout,
	exportDocument,
	importDocument,
	importRead,
	listRemovedRollouts,
	listRollouts,
	restoreRollout
} from './manage-rollouts';
export { type JobState, type JobView, isOver } from './jobs/job';
export { getJob, listJobs, startJob, stopJob, watchJob } from './jobs/jobs';
export {
	type Issue,
	issueRollout,
	issuedDocument,
	issuedRollout,
	latestIssue,
	listIssues,
	rolloutAt,
	withdrawIssue
} from './issues';
export { type OpenRollout, getRollout, needRollout } from './open-rollouts';
export type { Outcome, Reason } from './outcome';
export { adoptProposal, discardProposal, getProposal, listProposals } from './proposals';
export { isClockBehind, recordHead, verifyRollout } from './record';
export type { ChangeRow } from './store/change-repository';
export type { Proposal, ProposalRow } from './store/proposal-repository';
