import { byCodeUnits } from '../kernel/compare';
import { canonicalJson } from './canonical';
import { sha256 } from './sha-256';

/**
 * The change record as a chain: each change carries a seal, the SHA-256 of the canonical JSON (RFC 8785) of the seal before
 * it, of what it is (number, instant, kind, revision after it) and of a hash of its content (who, what, with which values,
 * before and after). Whoever alters, removes, inserts or moves a change breaks the chain there, and has to make every later
 * seal anew; a head that was printed before then no longer fits. The content is hashed on its own, with a salt, so that it
 * can be taken out when the law asks for it and the chain still holds; without the salt, its hash tells nothing about it.
 */

/** A hash of bytes as hexadecimal digits. */
export type Hash = (bytes: Uint8Array) => string;

/** What a change did to one piece of the document, bodies as the JSON text that is stored. */
export interface RecordedPiece {
	readonly path: string;
	readonly number: number;
	readonly positionBefore: number | null;
	readonly bodyBefore: string | null;
	readonly positionAfter: number | null;
	readonly bodyAfter: string | null;
}

/** A change as it is stored. */
export interface RecordedChange {
	readonly number: number;
	/** Instant, ISO 8601 in UTC. */
	readonly at: string;
	readonly who: string;
	readonly what: string;
	readonly edit: string;
	/** JSON text. */
	readonly params: string;
	readonly revision: string;
	readonly undoes: number | null;
	readonly pieces: readonly RecordedPiece[];
}

/** What is kept beside a change. */
export interface Seal {
	readonly number: number;
	readonly salt: string;
	/** Hash of the content. */
	readonly content: string;
	/** The seal before; of the first change `originOf` its rollout. */
	readonly previous: string;
	readonly hash: string;
	/** Set where the content was taken out because people were removed. */
	readonly redaction?: Redaction | null;
}

/** A content that was taken out: the change that did it, and the hash of what is left, without salt. */
export interface Redaction {
	readonly by: number;
	readonly content: string;
}

/** What the kind of change is called that removes people and takes the content out of the changes before it. */
export const removalEdit = 'remove-people';

/** What the first seal follows: it ties a record to its rollout. `createdAt`: instant, ISO 8601 in UTC. */
export function originOf(rollout: string, createdAt: string, hash: Hash = sha256): string {
	return hashOf({ format: 'doorwright.record', version: 1, rollout, createdAt }, hash);
}

/** Hash of who made a change, what it is called, its values, and what it did to each piece. */
export function contentHashOf(change: RecordedChange, salt: string, hash: Hash = sha256): string {
	const { who, what, params } = change;
	const pieces = [...change.pieces].sort((a, b) => byCodeUnits(a.path, b.path) || a.number - b.number);
	return hashOf({ salt, who, what, params, pieces }, hash);
}

/** Hash of a change with a content hash that follows a seal. */
export function sealHashOf(
	{ number, at, edit, revision, undoes }: RecordedChange,
	content: string,
	previous: string,
	hash: Hash = sha256
): string {
	return hashOf({ previous, number, at, edit, revision, undoes, content }, hash);
}

/** A change with what is about people taken out: without who, values and pieces, and with words that name nobody. */
export function redactedChange(change: RecordedChange, what: string): RecordedChange {
	return { ...change, who: '', what, params: 'null', pieces: [] };
}

/** Hash of what is left of a change. The change that removes people holds the digest of them all, so that the chain holds these too. */
export function redactionHashOf(change: RecordedChange, hash: Hash = sha256): string {
	return contentHashOf(change, '', hash);
}

/** One hash over everything that a removal left: numbers of changes and hashes of what is left of them, in their order. */
export function redactionDigest(
	left: readonly { readonly number: number; readonly content: string }[],
	hash: Hash = sha256
): string {
	const inOrder = [...left].sort((a, b) => a.number - b.number).map(({ number, content }) => [number, content]);
	return hashOf({ redacted: inOrder }, hash);
}

/** The seal of a change that follows another. `salt`: digits by chance, new for every change. */
export function sealOf(change: RecordedChange, previous: string, salt: string, hash: Hash = sha256): Seal {
	const content = contentHashOf(change, salt, hash);
	return { number: change.number, salt, content, previous, hash: sealHashOf(change, content, previous, hash) };
}

function hashOf(value: unknown, hash: Hash): string {
	return hash(new TextEncoder().encode(canonicalJson(value)));
}
