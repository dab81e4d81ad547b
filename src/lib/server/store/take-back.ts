import type { PieceChange, PieceState } from './plan-pieces';
import { piecesOf } from './plan-pieces';
import { type Piece, type Stored, assemble } from './pieces';
import { isSameJson } from '../../core/document/canonical';

/** A change taken back: what that does to the pieces, and the document after it. */
export interface TakenBack {
	readonly changes: readonly PieceChange[];
	readonly stored: Stored;
}

/**
 * Takes a change back. Gives the names of the pieces that are no longer as the change left them when there are any:
 * what was done to them later would be lost.
 */
export function takeBack(
	stored: Stored,
	done: readonly PieceChange[]
): { readonly ok: true; readonly value: TakenBack } | { readonly ok: false; readonly touched: readonly PieceChange[] } {
	const pieces = new Map(piecesOf(stored).map((piece) => [keyOf(piece), piece]));
	const touched = done.filter((change) => {
		const present = pieces.get(keyOf(change));
		return change.after === null ? present !== undefined : !present || !isSameJson(present.value, change.after.value);
	});
	if (touched.length > 0) return { ok: false, touched };
	const changes = done.map((change): PieceChange => {
		const { path, number } = change;
		const present = pieces.get(keyOf(change));
		const before = present ? { position: present.position, value: present.value } : null;
		const after = stateBefore(change, before);
		if (after) pieces.set(keyOf(change), { path, number, ...after });
		else pieces.delete(keyOf(change));
		return { path, number, before, after };
	});
	return { ok: true, value: { changes, stored: assemble([...pieces.values()]) } };
}

/** What a piece goes back to; where it was moved since, it stays. */
function stateBefore({ before, after }: PieceChange, present: PieceState | null): PieceState | null {
	if (before === null || present === null || after === null) return before;
	return { value: before.value, position: present.position === after.position ? before.position : present.position };
}

function keyOf({ path, number }: Pick<Piece, 'path' | 'number'>): string {
	return `${path}#${number}`;
}
