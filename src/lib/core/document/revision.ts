import { byCodeUnits } from '../kernel/compare';
import { canonicalJson } from './canonical';
import { collections } from './collections';
import type { RolloutDocument } from './schema';
import { sha256 } from './sha-256';

/** Digits of a revision as shown: enough that two states of one rollout never share it by chance. */
export const revisionDigits = 10;

/**
 * Names a state of a document: the first digits of the SHA-256 of its canonical JSON (RFC 8785). The same content has the
 * same revision wherever it is opened; the order of keys does not matter. The text of each list and entry is kept while it
 * lives, since a changed document shares nearly all of them with the one before; `hash` may be a faster SHA-256.
 */
export function revisionOf(document: RolloutDocument, hash: (bytes: Uint8Array) => string = sha256): string {
	return hash(new TextEncoder().encode(canonicalDocument(document, ''))).slice(0, revisionDigits);
}

const lists: ReadonlySet<string> = new Set(Object.values(collections).map((collection) => collection.path));
const textByEntry = new WeakMap<object, string>();

/** As `canonicalJson`, with the entries of the document's lists taken from what is kept. */
function canonicalDocument(value: unknown, path: string): string {
	if (typeof value !== 'object' || value === null) return canonicalJson(value);
	if (Array.isArray(value)) return lists.has(path) ? listText(value) : canonicalJson(value);
	const fields = Object.entries(value).filter(([, field]) => field !== undefined);
	return `{${fields
		.sort(([a], [b]) => byCodeUnits(a, b))
		.map(([key, field]) => `${JSON.stringify(key)}:${canonicalDocument(field, path === '' ? key : `${path}.${key}`)}`)
		.join(',')}}`;
}

/** A list that an edit leaves is the same object: its text is kept with it. */
function listText(list: readonly unknown[]): string {
	let text = textByEntry.get(list);
	if (text === undefined) textByEntry.set(list, (text = `[${list.map(entryText).join(',')}]`));
	return text;
}

function entryText(entry: unknown): string {
	if (typeof entry !== 'object' || entry === null) return canonicalJson(entry);
	let text = textByEntry.get(entry);
	if (text === undefined) textByEntry.set(entry, (text = canonicalJson(entry)));
	return text;
}
