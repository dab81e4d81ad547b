import { randomUUID } from 'node:crypto';
import type { Correction } from '$lib/core/roster/corrections';

/**
 * Rosters that were chosen and not yet applied or cancelled. They are about people, so they stay in memory only, for half
 * an hour, and nothing of them is written before somebody applies them.
 */
export interface RosterDraft {
	readonly id: string;
	readonly rollout: string;
	readonly fileName: string;
	readonly bytes: Uint8Array;
	/** What the user said about the list: see the map of the roster intake. */
	readonly map: Readonly<Record<string, unknown>>;
	/** Cells that the user put right. */
	readonly corrections: readonly Correction[];
}

const minutesKept = 30;
const most = 20;
const drafts = new Map<string, { draft: RosterDraft; until: number }>();

/** Keeps a roster until it is applied, cancelled, or half an hour old; the oldest makes room. */
export function keepRoster(rollout: string, fileName: string, bytes: Uint8Array): RosterDraft {
	const draft = { id: randomUUID(), rollout, fileName, bytes, map: {}, corrections: [] };
	remember(draft);
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

/** Keeps what the user said about a roster. */
export function mapRoster(draft: RosterDraft, map: RosterDraft['map']): void {
	remember({ ...draft, map });
}

/** Keeps what the user put right in a roster. */
export function mendRoster(draft: RosterDraft, corrections: RosterDraft['corrections']): void {
	remember({ ...draft, corrections });
}

/** Forgets a roster. */
export function dropRoster(id: string): void {
	drafts.delete(id);
}

function remember(draft: RosterDraft): void {
	drafts.set(draft.id, { draft, until: performance.now() + minutesKept * 60_000 });
}
