import { readRollout, readRolloutValue } from '../core/answers/support/read-rollout';
import type { ReadDocument } from '../core/document/read';
import { writeDocument } from '../core/document/write';
import { fault } from '../core/kernel/fault';
import { type OpenRollout, getRollout, needRollout, noRollout, quickRevisionOf, remember } from './open-rollouts';
import { type Outcome, outcomeOf, refuse } from './outcome';
import { store } from './store/current';
import type { RolloutRow } from './store/rollout-repository';

/** Days for which a deleted rollout can be restored; then it is erased, since it is about people. */
export const daysRestorable = 30;

/** A rollout in the list of rollouts. */
export type RolloutSummary = Omit<RolloutRow, 'nextPiece'>;

/** What a new rollout starts from; the rest is filled in on its sheets. */
export interface NewRollout {
	readonly name: string;
	readonly timeZone: string;
	readonly country?: string | null;
	readonly region?: string | null;
	/** Local dates, both included. */
	readonly from: string;
	readonly until: string;
}

/** Every rollout, the one changed last first. */
export function listRollouts(): readonly RolloutSummary[] {
	return store().rollouts.list(false).map(summaryOf);
}

/** Deleted rollouts that can still be restored. */
export function listRemovedRollouts(): readonly RolloutSummary[] {
	return store().rollouts.list(true).map(summaryOf);
}

/** Makes a rollout with nothing in it but its site and horizon. Fault paths are those of `NewRollout`. */
export function createRollout(start: NewRollout, who: string): Outcome<OpenRollout> {
	const { name, timeZone, country, region, from, until } = start;
	const read = readRolloutValue({
		format: 'doorwright.rollout',
		version: 1,
		site: { name: name.trim(), timeZone, ...(country ? { country } : {}), ...(region ? { region } : {}) },
		horizon: { from, until }
	});
	if (read.ok) return { ok: true, value: keepNew(read.value, 'Rollout created', 'create-rollout', who) };
	return refuse(
		'invalid',
		read.faults.map((one) => {
			const path = one.path.replace(/^\$\.(site|horizon)\./, '$.');
			return { ...one, path, message: one.message.replace(one.path, path) };
		})
	);
}

/** Makes a rollout from the bytes or text of a document; every fault in one go, and then nothing is kept. */
export function importDocument(input: Uint8Array | string, who: string): Outcome<OpenRollout> {
	const read = readRollout(input);
	return read.ok ? { ok: true, value: importRead(read.value, who) } : outcomeOf(read);
}

/** As `importDocument`, of a document that was read before. */
export function importRead(read: ReadDocument, who: string): OpenRollout {
	return keepNew(read, 'Document imported', 'import-document', who);
}

/** The document as the text of its file, exactly what was imported and changed since. */
export function exportDocument(id: string): Outcome<string> {
	const open = needRollout(id);
	return open.ok ? { ok: true, value: writeDocument(open.value.document) } : open;
}

/**
 * Deletes a rollout; it can be restored for 30 days. `name` must be the site's name, typed again by whoever deletes.
 */
export function deleteRollout(id: string, name: string, who: string): Outcome<RolloutSummary> {
	const row = store().rollouts.find(id);
	if (!row || row.removedAt !== null) return refuse('not-found', noRollout(id));
	if (name.trim() !== row.name.trim())
		return refuse('conflict', fault(['name'], name, `the site's name, ${JSON.stringify(row.name)}`));
	store().rollouts.setRemoved(id, new Date().toISOString(), who);
	return { ok: true, value: summaryOf(store().rollouts.find(id) as RolloutRow) };
}

/** Takes the deletion of a rollout back. */
export function restoreRollout(id: string): Outcome<OpenRollout> {
	const row = store().rollouts.find(id);
	if (!row) return refuse('not-found', noRollout(id));
	if (row.removedAt !== null) store().rollouts.setRemoved(id, null, null);
	return { ok: true, value: getRollout(id) as OpenRollout };
}

/** Erases a deleted rollout with its history and proposals, now and for good. `name` as in `deleteRollout`. */
export function eraseRollout(id: string, name: string): Outcome<null> {
	const row = store().rollouts.find(id);
	if (!row) return refuse('not-found', noRollout(id));
	if (row.removedAt === null) return refuse('conflict', fault(['rollout'], id, 'a rollout that was deleted before'));
	if (name.trim() !== row.name.trim())
		return refuse('conflict', fault(['name'], name, `the site's name, ${JSON.stringify(row.name)}`));
	store().rollouts.erase(id);
	store().wipe();
	return { ok: true, value: null };
}

/** Erases what was deleted more than 30 days before an instant. */
export function eraseOutdated(now: Date): void {
	const limit = new Date(now.getTime() - daysRestorable * 86_400_000).toISOString();
	const outdated = store().rollouts.removedBefore(limit);
	for (const id of outdated) store().rollouts.erase(id);
	if (outdated.length > 0) store().wipe();
}

function keepNew(read: ReadDocument, what: string, edit: string, who: string): OpenRollout {
	const at = new Date().toISOString();
	const revision = quickRevisionOf(read.document);
	const name = read.document.site.name;
	const kept = store().inTransaction(() => {
		const id = freeId(name);
		const stored = store().rollouts.create(id, name, read.document, revision, at);
		// Its pieces are not recorded: there was nothing before, and it is not undone but deleted.
		store().changes.add(id, { number: 1, at, who, what, edit, params: {}, revision, undoes: null }, []);
		return { id, layout: stored.layout };
	});
	const row = store().rollouts.find(kept.id) as RolloutRow;
	const open = { ...read, id: kept.id, name, revision, lastChange: 1, createdAt: at, changedAt: at, changedBy: who };
	return remember(kept.id, { open, layout: kept.layout, nextPiece: row.nextPiece }).open;
}

/** An id for addresses made from a name, such as `larkfen-cold-store`, with a number where it is taken. */
function freeId(name: string): string {
	const plain = name.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
	const stem =
		plain
			.replace(/[^a-z0-9]+/g, '-')
			.replace(/^-|-$/g, '')
			.slice(0, 40)
			.replace(/-$/, '') || 'rollout';
	let id = stem;
	for (let n = 2; store().rollouts.hasId(id); n++) id = `${stem}-${n}`;
	return id;
}

function summaryOf({ nextPiece: _, ...row }: RolloutRow): RolloutSummary {
	return row;
}
