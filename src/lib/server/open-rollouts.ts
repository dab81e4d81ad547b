import { createHash } from 'node:crypto';
import { readRolloutValue } from '../core/answers/support/read-rollout';
import type { ReadDocument } from '../core/document/read';
import { revisionOf } from '../core/document/revision';
import type { RolloutDocument } from '../core/document/schema';
import { fault } from '../core/kernel/fault';
import { nearestName } from '../core/kernel/nearest';
import { type Outcome, refuse } from './outcome';
import { store } from './store/current';
import type { Layout } from './store/pieces';
import type { RolloutRow } from './store/rollout-repository';

/** A rollout as it stands, with everything that a sheet needs. Treat it as immutable: it is shared between requests. */
export interface OpenRollout extends ReadDocument {
	/** The last part of its address. */
	readonly id: string;
	/** The site's name. */
	readonly name: string;
	/** Names this state of the document, for title blocks and prints. */
	readonly revision: string;
	/** The number of the latest change. */
	readonly lastChange: number;
	/** Instants, ISO 8601 in UTC. */
	readonly createdAt: string;
	readonly changedAt: string;
	readonly changedBy: string;
}

/** What is kept in memory of a rollout: also where its pieces lie, so that a change can tell which of them it touches. */
export interface Loaded {
	readonly open: OpenRollout;
	readonly layout: Layout;
	readonly nextPiece: number;
}

/** How many rollouts stay in memory; the one used longest ago makes room. */
const most = 12;
const loadedById = new Map<string, Loaded>();

/** The rollout of an id as it stands, undefined where there is none (or it was deleted). */
export function getRollout(id: string): OpenRollout | undefined {
	return load(id)?.open;
}

/** As `getRollout`, with a fault that names the nearest id where there is none. */
export function needRollout(id: string): Outcome<OpenRollout> {
	const open = getRollout(id);
	return open ? { ok: true, value: open } : refuse('not-found', noRollout(id));
}

/** The fault of an id that no rollout has. */
export function noRollout(id: string) {
	const ids = store()
		.rollouts.list(false)
		.map((row) => row.id);
	return fault(['rollout'], id, 'the id of a rollout', nearestName(id, ids));
}

/** A rollout from memory when it still is what the store holds, else from the store. */
export function load(id: string): Loaded | undefined {
	const state = store().rollouts.stateOf(id);
	if (!state || state.removedAt !== null) {
		loadedById.delete(id);
		return undefined;
	}
	const known = loadedById.get(id);
	if (known?.open.lastChange === state.lastChange && known.open.revision === state.revision) return remember(id, known);
	const row = store().rollouts.find(id) as RolloutRow;
	const stored = store().rollouts.read(id);
	const read = readRolloutValue(stored.document);
	if (!read.ok) {
		throw new Error(`rollout ${id} cannot be read: ${read.faults.map((one) => one.message).join('; ')}`);
	}
	return remember(id, { open: openOf(row, read.value), layout: stored.layout, nextPiece: row.nextPiece });
}

/** Keeps what is now stored, so that the next request finds it. */
export function remember(id: string, loaded: Loaded): Loaded {
	loadedById.delete(id);
	loadedById.set(id, loaded);
	for (const oldest of loadedById.keys()) {
		if (loadedById.size <= most) break;
		loadedById.delete(oldest);
	}
	return loaded;
}

/** Forgets everything in memory; it is read again when needed. */
export function forgetAll(): void {
	loadedById.clear();
}

/** The revision of a document, by the platform's own SHA-256. */
export function quickRevisionOf(document: RolloutDocument): string {
	return revisionOf(document, (bytes) => createHash('sha256').update(bytes).digest('hex'));
}

function openOf(row: RolloutRow, read: ReadDocument): OpenRollout {
	return {
		...read,
		id: row.id,
		name: row.name,
		revision: row.revision,
		lastChange: row.lastChange,
		createdAt: row.createdAt,
		changedAt: row.changedAt,
		changedBy: row.changedBy
	};
}
