import { applyEdit } from '../core/edits';
import { removalEdit } from '../core/document/record-chain';
import { isStale } from '../core/edits/support/find-entry';
import type { ReadDocument } from '../core/document/read';
import { readChanged } from '../core/document/read-changed';
import { fault } from '../core/kernel/fault';
import { rulePacks } from '../core/privacy/packs';
import { todayAt } from './clock';
import { passMemory } from './jobs/memory';
import { type Loaded, type OpenRollout, load, noRollout, quickRevisionOf, remember } from './open-rollouts';
import { type Outcome, outcomeOf, refuse } from './outcome';
import type { ChangeRow, NewChange } from './store/change-repository';
import { store } from './store/current';
import type { Layout } from './store/pieces';
import { type PieceChange, planPieces } from './store/plan-pieces';
import { takeBack } from './store/take-back';

/** A rollout after a change; `change` is null when the change changed nothing and was not recorded. */
export interface Changed {
	readonly open: OpenRollout;
	readonly change: ChangeRow | null;
}

/** An entry of the change record with what it did. */
export interface ChangeDetail extends ChangeRow {
	readonly touched: readonly PieceChange[];
}

/**
 * Makes a change to a rollout: one transaction that touches only the pieces that change, with an entry in the change
 * record. `ifRevision`: refused when the document has another revision by now.
 */
export function editRollout(
	id: string,
	edit: string,
	params: unknown,
	who: string,
	ifRevision?: string
): Outcome<Changed> {
	const loaded = load(id);
	if (!loaded) return refuse('not-found', noRollout(id));
	if (ifRevision !== undefined && ifRevision !== loaded.open.revision) {
		const expected = `the present revision, ${loaded.open.revision}; the rollout was changed in the meantime`;
		return refuse('conflict', fault(['ifRevision'], ifRevision, expected));
	}
	const after = applyEdit(loaded.open, edit, params, todayAt(loaded.open.rollout.site.timeZone));
	if (!after.ok) {
		return outcomeOf(after, (faults) => {
			if (faults.some(isStale)) return 'conflict';
			return faults.some((one) => one.path === '$.edit') ? 'not-found' : 'invalid';
		});
	}
	const { what, params: kept } = after.value;
	const plan = planPieces(
		{ document: loaded.open.document, layout: loaded.layout },
		after.value.document,
		loaded.nextPiece
	);
	if (plan.changes.length === 0) return { ok: true, value: { open: loaded.open, change: null } };
	return keep(loaded, after.value, plan.layout, plan.nextPiece, plan.changes, {
		who,
		what,
		edit,
		params: kept,
		undoes: null
	});
}

/** Takes back a change, the latest in effect where no number is given. Refused when later changes touched the same pieces. */
export function undo(id: string, who: string, number?: number): Outcome<Changed> {
	const loaded = load(id);
	if (!loaded) return refuse('not-found', noRollout(id));
	const wanted = number ?? store().changes.findUndoable(id);
	if (wanted === undefined) return refuse('conflict', fault(['change'], null, 'a change to take back; there is none'));
	return takeBackChange(loaded, wanted, who);
}

/** Makes the change again that was taken back last, as long as no other change followed. */
export function redo(id: string, who: string): Outcome<Changed> {
	const loaded = load(id);
	if (!loaded) return refuse('not-found', noRollout(id));
	const undoing = store().changes.findRedoable(id);
	if (undoing === undefined) {
		return refuse('conflict', fault(['change'], null, 'a change that was taken back just before; there is none'));
	}
	return takeBackChange(loaded, undoing, who);
}

/** The change record from the latest backwards, `limit` entries older than `before`. */
export function listChanges(id: string, before = Number.MAX_SAFE_INTEGER, limit = 50): Outcome<readonly ChangeRow[]> {
	if (!load(id)) return refuse('not-found', noRollout(id));
	return { ok: true, value: store().changes.list(id, before, limit) };
}

/** What `undo` and `redo` would do now, for their buttons; null where there is nothing. */
export function undoState(id: string): { readonly undo: ChangeRow | null; readonly redo: ChangeRow | null } {
	const { changes } = store();
	const undoable = changes.findUndoable(id);
	const undoing = changes.findRedoable(id);
	const redone = undoing === undefined ? undefined : changes.find(id, undoing)?.undoes;
	return {
		undo: (undoable === undefined ? undefined : changes.find(id, undoable)) ?? null,
		redo: (redone === undefined || redone === null ? undefined : changes.find(id, redone)) ?? null
	};
}

/** One entry of the change record with the pieces before and after. */
export function getChange(id: string, number: number): Outcome<ChangeDetail> {
	if (!load(id)) return refuse('not-found', noRollout(id));
	const change = store().changes.find(id, number);
	if (!change) return refuse('not-found', noChange(number));
	return { ok: true, value: { ...change, touched: store().changes.piecesOf(id, number) } };
}

function takeBackChange(loaded: Loaded, number: number, who: string): Outcome<Changed> {
	const { id, document } = loaded.open;
	const { changes } = store();
	const change = changes.find(id, number);
	if (!change) return refuse('not-found', noChange(number));
	if (number === 1) {
		return refuse(
			'conflict',
			fault(['change'], number, 'a later change; the first made the rollout, which can be deleted')
		);
	}
	if (change.redactedBy !== null || change.edit === removalEdit) {
		return refuse(
			'conflict',
			fault(['change'], number, 'a change whose content is there; people were removed from it')
		);
	}
	if (change.undoneBy !== null) {
		return refuse('conflict', fault(['change'], number, `a change in effect; number ${change.undoneBy} took it back`));
	}
	const done = changes.piecesOf(id, number);
	const back = takeBack({ document, layout: loaded.layout }, done);
	if (!back.ok) {
		const later = changes.laterOn(id, number, back.touched).flatMap((one) => changes.find(id, one) ?? []);
		const named = later.map((one) => `number ${one.number} (${one.what}, by ${one.who})`).join('; ');
		return refuse(
			'conflict',
			fault(['change'], number, `a change that no later one built on; take back first: ${named}`)
		);
	}
	const { stored, changes: pieces } = back.value;
	const read = readChanged(loaded.open, stored.document, { regimes: rulePacks.keys() });
	// What came later may name an entry that would go: told as faults of the document that would come of it.
	if (!read.ok) return refuse('conflict', read.faults);
	const undone = change.undoes === null ? undefined : changes.find(id, change.undoes);
	const what = undone ? `Redone: ${undone.what}` : `Taken back: ${change.what}`;
	const params = { change: undone?.number ?? number };
	const edit = undone ? 'redo' : 'undo';
	return keep(loaded, read.value, stored.layout, loaded.nextPiece, pieces, { who, what, edit, params, undoes: number });
}

function keep(
	{ open: before }: Loaded,
	after: ReadDocument,
	layout: Layout,
	nextPiece: number,
	pieces: readonly PieceChange[],
	record: Omit<NewChange, 'number' | 'at' | 'revision'>
): Outcome<Changed> {
	const { id } = before;
	const { document, rollout } = after;
	const revision = quickRevisionOf(document);
	const change = { ...record, number: before.lastChange + 1, at: new Date().toISOString(), revision };
	const { name } = document.site;
	const seal = store().inTransaction(() => {
		if (!store().rollouts.advance(id, before.lastChange, name, revision, nextPiece)) return null;
		store().rollouts.writePieces(id, pieces);
		return store().changes.add(id, change, pieces);
	});
	if (seal === null) {
		const expected = 'a rollout that nobody else changes at this moment; look at it again and repeat the change';
		return refuse('conflict', fault(['rollout'], id, expected));
	}
	const open: OpenRollout = {
		...before,
		document,
		rollout,
		name,
		revision,
		lastChange: change.number,
		changedAt: change.at,
		changedBy: change.who
	};
	passMemory(before.rollout, rollout);
	remember(id, { open, layout, nextPiece });
	return {
		ok: true,
		value: { open, change: { ...change, undoneBy: null, pieces: pieces.length, seal, redactedBy: null } }
	};
}

function noChange(number: number) {
	return fault(['change'], number, 'the number of a change');
}
