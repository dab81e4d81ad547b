import { type Head, type VerifiedRecord, readHead, verifyRecord } from '../core/document/verify-record';
import { type OpenRollout, noRollout } from './open-rollouts';
import { type Outcome, outcomeOf, refuse } from './outcome';
import { store } from './store/current';
import { quickHash } from './store/record-seals';

/**
 * Looks at the whole change record of a rollout and tells each place that does not fit. `printed`: a head from a title block
 * or a handover, as it is printed there. Works also where the document was altered so that it cannot be opened.
 */
export function verifyRollout(id: string, printed?: string): Outcome<VerifiedRecord> {
	const head = printed === undefined || printed.trim() === '' ? undefined : readHead(printed);
	if (head && !head.ok) return outcomeOf(head);
	const record = store().record(id);
	return record
		? { ok: true, value: verifyRecord(record, head?.value, quickHash) }
		: refuse('not-found', noRollout(id));
}

/** The seal of the latest change; undefined where somebody has removed the seals. */
export function recordHead(id: string): Head | undefined {
	return store().head(id);
}

/** True when the latest change lies later than now: this machine's clock was set back, or was ahead then. */
export function isClockBehind(open: OpenRollout, now = new Date()): boolean {
	return Date.parse(open.changedAt) > now.getTime();
}
