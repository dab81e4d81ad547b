import { randomUUID } from 'node:crypto';
import { type SaidOfList, nothingSaid } from './roster-preview';

/**
 * Rosters that were chosen and not yet applied or cancelled. They are about people, so they stay in memory only, for half
 * an hour, and nothing of them is written before somebody applies them.
 */
export interface RosterDraft {
	readonly id: string;
	readonly rollout: string;
	readonly fileName: string;
	readonly bytes: Uint8Array;
	readonly said: SaidOfList;
	/** The file whose remembered columns it was read by; null where it was read by none. */
	readonly readAs: string | null;
}

const minutesKept = 30;
const most = 20;
const drafts = new Map<string, { draft: RosterDraft; until: number }>();

/** A roster that is not kept yet. */
export function newRoster(rollout: string, fileName: string, bytes: Uint8Array): RosterDraft {
	return { id: randomUUID(), rollout, fileName, bytes, said: nothingSaid, readAs: null };
}

/** Keeps a roster, or what was said of it since, until it is applied, cancelled, or half an hour old; the oldest makes room. */
export function keepRoster(draft: RosterDraft): RosterDraft {
	drafts.set(draft.id, { draft, until: performance.now() + minutesKept * 60_000 });
	for (const id of drafts.keys()) {
		if (drafts.size <= most) break;
		drafts.delete(id);
	}
	return draft;
}

/** The roster of an id; undefined when it is gone or belongs to another rollout. */
export function findRoster(rollout: string, id: string): RosterDraft | undefined {
	const now = performance.now();
	for (const [key, { until }] of drafts) if (until < now) drafts.delete(key);
	const kept = drafts.get(id)?.draft;
	return kept?.rollout === rollout ? kept : undefined;
}

/** Forgets a roster. */
export function dropRoster(id: string): void {
	drafts.delete(id);
}

/** Forgets every roster of a rollout. */
export function dropRostersOf(rollout: string): void {
	for (const [id, { draft }] of drafts) if (draft.rollout === rollout) drafts.delete(id);
}
