import type { Rollout } from '../../document/schema';
import { applyEdit } from '../../edits';
import type { Result } from '../../kernel/result';
import { ok } from '../../kernel/result';
import type { EditCall } from '../define-mend';

/**
 * The rollout after edits, made by the edits themselves and read again as a whole. A rollout is a document in which every
 * default is written out, so it is changed as one; what is untouched stays the same object.
 */
export function applied(rollout: Rollout, edits: readonly EditCall[]): Result<Rollout> {
	const after = applyEdit({ document: rollout, rollout }, 'all-of', { edits });
	return after.ok ? ok(after.value.rollout) : after;
}
