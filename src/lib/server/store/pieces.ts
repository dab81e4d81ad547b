import { collections } from '../../core/document/collections';
import type { RolloutDocument } from '../../core/document/schema';
import { valueAt } from '../../core/document/lists';

/**
 * A document in pieces: one for each key of the root and of the objects that group lists, one for each entry of a list.
 * Nothing else is assumed of the document, so that whatever was read comes back as the same JSON value: keys left out,
 * nulls, empty lists, the order of keys and of entries.
 */
export interface Piece {
	/** Keys from the root, joined by dots. */
	readonly path: string;
	/** 0: what stands at the path; from 1: an entry of the list there. */
	readonly number: number;
	readonly position: number;
	/** The JSON value; `[]` or `{}` where the rest is in further pieces. */
	readonly value: unknown;
}

/** Where the pieces of a document lie: for each group of siblings their numbers and positions, in document order. */
export type Layout = ReadonlyMap<string, readonly Slot[]>;

export interface Slot {
	/** The key for a part, empty for an entry. */
	readonly key: string;
	readonly number: number;
	readonly position: number;
}

/** A document and where its pieces lie. */
export interface Stored {
	readonly document: RolloutDocument;
	readonly layout: Layout;
}

/** Paths of the lists whose entries are pieces. */
export const listPaths: ReadonlySet<string> = new Set(Object.values(collections).map((collection) => collection.path));

/** Paths of the objects whose keys are pieces; the root is the empty path. */
export const groupPaths: ReadonlySet<string> = new Set([
	'',
	...[...listPaths].flatMap((path) => (path.includes('.') ? [path.slice(0, path.indexOf('.'))] : []))
]);

/** Siblings: the keys of a group, or the entries of a list. Both are named by their path; none is both. */
export function siblingsOf(document: RolloutDocument, path: string): readonly Sibling[] {
	const value = path === '' ? document : valueAt(document, path.split('.'));
	if (groupPaths.has(path)) {
		if (typeof value !== 'object' || value === null || Array.isArray(value)) return [];
		return Object.entries(value).flatMap(([key, field]) =>
			field === undefined ? [] : [{ key, value: ownPart(pathUnder(path, key), field) }]
		);
	}
	return Array.isArray(value) ? value.map((entry: unknown) => ({ key: '', value: entry })) : [];
}

export interface Sibling {
	readonly key: string;
	readonly value: unknown;
}

/** Every path that can have siblings, groups before the lists in them. */
export const siblingPaths: readonly string[] = [...groupPaths, ...listPaths];

/** The path of a key in a group. */
export function pathUnder(group: string, key: string): string {
	return group === '' ? key : `${group}.${key}`;
}

/** What a piece holds of a value whose rest is in further pieces. */
function ownPart(path: string, value: unknown): unknown {
	if (listPaths.has(path) && Array.isArray(value)) return emptyList;
	if (groupPaths.has(path) && typeof value === 'object' && value !== null && !Array.isArray(value)) return emptyGroup;
	return value;
}

const emptyList: readonly never[] = [];
const emptyGroup: Readonly<Record<string, never>> = {};

/** Puts a document together from its pieces, given in any order. */
export function assemble(pieces: readonly Piece[]): Stored {
	const layout = new Map<string, Slot[]>();
	const root: Record<string, unknown> = {};
	const made = new Map<string, unknown>([['', root]]);
	const inOrder = [...pieces].sort((a, b) => a.position - b.position || a.number - b.number);
	const parts = inOrder.filter((piece) => piece.number === 0);
	// Groups stand in the root, so that shorter paths come first.
	for (const { path, position, value } of parts.toSorted((a, b) => depth(a.path) - depth(b.path))) {
		const cut = path.lastIndexOf('.');
		const [group, key] = cut < 0 ? ['', path] : [path.slice(0, cut), path.slice(cut + 1)];
		const own = value === null || typeof value !== 'object' ? value : structuredClone(value);
		made.set(path, own);
		(made.get(group) as Record<string, unknown>)[key] = own;
		slotsOf(layout, group).push({ key, number: 0, position });
	}
	for (const { path, number, position, value } of inOrder) {
		if (number === 0) continue;
		(made.get(path) as unknown[]).push(value);
		slotsOf(layout, path).push({ key: '', number, position });
	}
	return { document: root as RolloutDocument, layout };
}

function slotsOf(layout: Map<string, Slot[]>, path: string): Slot[] {
	const slots = layout.get(path) ?? [];
	layout.set(path, slots);
	return slots;
}

function depth(path: string): number {
	return path.split('.').length;
}
