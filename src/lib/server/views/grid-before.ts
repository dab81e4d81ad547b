import type { Rollout } from '$lib/core/document/schema';
import { issuedRollout, latestIssue } from '$lib/server/issues';
import type { OpenRollout } from '$lib/server/rollouts';

/** The state of the revision that was issued last, against which changed cells are told; null where nothing was issued. */
export function issuedBefore(open: OpenRollout): { letter: string; rollout: Rollout } | null {
	const issue = latestIssue(open.id);
	if (!issue || issue.revision === open.revision) return null;
	const issued = issuedRollout(open.id, issue.letter);
	return issued.ok ? { letter: issue.letter, rollout: issued.value } : null;
}
