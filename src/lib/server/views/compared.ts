import { randomUUID } from 'node:crypto';
import { readRollout } from '$lib/core/answers/support/read-rollout';
import type { Rollout } from '$lib/core/document/schema';
import { fault } from '$lib/core/kernel/fault';
import { issuedRollout, latestIssue, rolloutAt } from '../issues';
import type { StateToCompare } from '../jobs/comparings';
import type { OpenRollout } from '../open-rollouts';
import { type Outcome, outcomeOf, refuse } from '../outcome';

/** A state of a rollout as it is compared; the key names it, so that the same comparison is made once. */
export interface NamedState extends StateToCompare {
	readonly label: string;
}

/** States put together from the record, and documents that were only looked at: the latest few, in memory. */
const mostRead = 4;
const readStates = new Map<string, Rollout>();
const files = new Map<
	string,
	{ readonly of: string; readonly name: string; readonly rollout: Rollout; readonly until: number }
>();
const anHour = 3_600_000;

/**
 * A state of a rollout by its name in an address: `now`, `B` (an issued revision), `17` (after that change of the record),
 * `file-…` (a document given to look at). Empty is the latest issue.
 */
export function stateOf(open: OpenRollout, name: string): Outcome<NamedState> {
	if (name === 'now') return found(`${open.id} ${open.revision}`, 'now', { ok: true, value: open.rollout });
	if (name.startsWith('file-')) return fileOf(open, name);
	if (/^\d+$/.test(name)) return found(`${open.id} ${name}`, `after change ${name}`, recordedAt(open, name));
	const letter = name === '' ? latestIssue(open.id)?.letter : name;
	if (letter === undefined) return refuse('not-found', fault(['since'], null, 'a revision; none was issued yet'));
	return found(`${open.id} ${letter}`, `revision ${letter}`, issuedRollout(open.id, letter));
}

/** The name under which a document can be compared for an hour; it is kept in memory only. Every fault at once. */
export function lookAt(open: OpenRollout, name: string, bytes: Uint8Array): Outcome<string> {
	const read = readRollout(bytes);
	if (!read.ok) return outcomeOf(read);
	const key = `file-${randomUUID().slice(0, 8)}`;
	files.set(key, { of: open.id, name, rollout: read.value.rollout, until: Date.now() + anHour });
	forgetOldest(files);
	return { ok: true, value: key };
}

/** The documents that are looked at beside a rollout, for a choice of states. */
export function lookedAt(open: OpenRollout): readonly { readonly value: string; readonly label: string }[] {
	for (const [key, { until }] of files) if (until < Date.now()) files.delete(key);
	return [...files].flatMap(([value, { of, name }]) =>
		of === open.id ? { value, label: `The document ${name}` } : []
	);
}

function fileOf(open: OpenRollout, key: string): Outcome<NamedState> {
	const file = files.get(key);
	if (!file || file.of !== open.id || file.until < Date.now()) {
		return refuse('not-found', fault(['since'], null, 'a document of the last hour: choose the file once more'));
	}
	return found(key, `the document ${file.name}`, { ok: true, value: file.rollout });
}

function recordedAt(open: OpenRollout, number: string): Outcome<Rollout> {
	const key = `${open.id} ${number}`;
	const known = readStates.get(key);
	if (known) return { ok: true, value: known };
	const read = rolloutAt(open, Number(number));
	if (read.ok) readStates.set(key, read.value);
	forgetOldest(readStates);
	return read;
}

function found(key: string, label: string, outcome: Outcome<Rollout>): Outcome<NamedState> {
	return outcome.ok ? { ok: true, value: { key, label, rollout: outcome.value } } : outcome;
}

function forgetOldest(kept: Map<string, unknown>): void {
	for (const oldest of kept.keys()) {
		if (kept.size <= mostRead) return;
		kept.delete(oldest);
	}
}
