import type { RolloutDocument } from '../../core/document/schema';
import { isUnchanged, matchSiblings, slotsFor } from './arrange';
import {
	type Layout,
	type Piece,
	type Sibling,
	type Slot,
	type Stored,
	groupPaths,
	pathUnder,
	siblingPaths,
	siblingsOf
} from './pieces';

/** What happens to one piece; null before: it is new, null after: it is gone. */
export interface PieceChange {
	readonly path: string;
	readonly number: number;
	readonly before: PieceState | null;
	readonly after: PieceState | null;
}

export interface PieceState {
	readonly position: number;
	readonly value: unknown;
}

/** The pieces that differ between a stored document and what shall be stored, and how it then lies. */
export interface PiecePlan {
	readonly changes: readonly PieceChange[];
	readonly layout: Layout;
	/** The first number not given to a piece yet. */
	readonly nextPiece: number;
}

/** Nothing stored yet. */
export const nothingStored: Stored = { document: {} as RolloutDocument, layout: new Map() };

/** Compares a stored document with the one that shall be stored; lists that are the same object cost nothing. */
export function planPieces(stored: Stored, after: RolloutDocument, nextPiece: number): PiecePlan {
	const changes: PieceChange[] = [];
	const layout = new Map(stored.layout);
	let next = nextPiece;
	for (const path of siblingPaths) {
		const before = siblingsOf(stored.document, path);
		const now = siblingsOf(after, path);
		if (isSame(before, now)) continue;
		const slots = stored.layout.get(path) ?? [];
		const match = matchSiblings(before, now);
		const arranged = slotsFor(now, match, slots, () => next++);
		for (const change of changesAt(path, before, slots, now, arranged, match)) changes.push(change);
		layout.set(path, arranged);
	}
	return { changes, layout, nextPiece: next };
}

function isSame(before: readonly Sibling[], now: readonly Sibling[]): boolean {
	return (
		before.length === now.length &&
		before.every(({ key, value }, at) => key === now[at]?.key && value === now[at].value)
	);
}

function changesAt(
	path: string,
	before: readonly Sibling[],
	slots: readonly Slot[],
	now: readonly Sibling[],
	arranged: readonly Slot[],
	match: readonly (number | undefined)[]
): PieceChange[] {
	const kept = new Set(match);
	const gone = before.flatMap(({ value }, index): PieceChange[] => {
		const slot = slots[index] as Slot;
		if (kept.has(index)) return [];
		return [{ ...nameOf(path, slot), before: { position: slot.position, value }, after: null }];
	});
	const changed = now.flatMap((sibling, at): PieceChange[] => {
		const slot = arranged[at] as Slot;
		const index = match[at];
		const old = index === undefined ? undefined : before[index];
		const oldSlot = index === undefined ? undefined : slots[index];
		if (isUnchanged(old, sibling) && oldSlot?.position === slot.position) return [];
		return [
			{
				...nameOf(path, slot),
				before: old && oldSlot ? { position: oldSlot.position, value: old.value } : null,
				after: { position: slot.position, value: sibling.value }
			}
		];
	});
	return [...gone, ...changed];
}

/** How a piece is named: a part by its own path, an entry by that of its list and its number. */
function nameOf(path: string, slot: Slot): { path: string; number: number } {
	return groupPaths.has(path) ? { path: pathUnder(path, slot.key), number: 0 } : { path, number: slot.number };
}

/** The pieces of a stored document. */
export function piecesOf({ document, layout }: Stored): readonly Piece[] {
	return siblingPaths.flatMap((path) =>
		siblingsOf(document, path).map(({ value }, at): Piece => {
			const slot = layout.get(path)?.[at] as Slot;
			return { ...nameOf(path, slot), position: slot.position, value };
		})
	);
}
