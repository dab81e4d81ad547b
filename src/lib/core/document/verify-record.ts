import { fault } from '../kernel/fault';
import { type Result, ok, refused } from '../kernel/result';
import {
	type Hash,
	type RecordedChange,
	type Seal,
	contentHashOf,
	originOf,
	redactionDigest,
	redactionHashOf,
	removalEdit,
	sealHashOf
} from './record-chain';
import { revisionLetter } from './revision-letter';
import { sha256 } from './sha-256';

/** Digits of a head as printed in title blocks. */
export const headDigits = 10;

/** A record as it is stored, with what its rollout says of its end. */
export interface StoredRecord {
	readonly rollout: string;
	readonly createdAt: string;
	/** Number of the latest change and the revision after it, as noted on the rollout. */
	readonly lastChange: number;
	readonly revision: string;
	/** The revision worked out from the document that is stored. */
	readonly documentRevision: string;
	readonly changes: readonly RecordedChange[];
	readonly seals: readonly Seal[];
	/** Revisions that were issued, by number, withdrawn ones among them. */
	readonly issues: readonly StoredIssue[];
}

/** What is stored of an issued revision. */
export interface StoredIssue {
	/** From 1: revision A. */
	readonly number: number;
	/** The latest change at that time, and the revision that it had led to. */
	readonly change: number;
	readonly revision: string;
	/** The revision worked out from the document that was kept; null where it was withdrawn. */
	readonly documentRevision: string | null;
}

/** The end of a chain: number and seal of the latest change. */
export interface Head {
	readonly number: number;
	readonly hash: string;
}

export type BreakCode =
	| 'change-missing'
	| 'seal-missing'
	| 'content-altered'
	| 'entry-altered'
	| 'order-broken'
	| 'redaction-altered'
	| 'end-differs'
	| 'document-differs'
	| 'issue-altered'
	| 'head-differs';

/** Breaks that are about a change alone. */
type ChangeBreakCode = Exclude<BreakCode, 'issue-altered'>;

/** A place at which the record does not fit. */
export interface RecordBreak {
	readonly code: BreakCode;
	/** The change at which it shows; 0 where the record has none. */
	readonly change: number;
	readonly message: string;
}

/** What was found out about a record. */
export interface VerifiedRecord {
	readonly rollout: string;
	/** How many changes were looked at. */
	readonly changes: number;
	readonly head: Head | null;
	readonly breaks: readonly RecordBreak[];
	/** How many of them have had their content taken out because people were removed. */
	readonly redacted: number;
	/** Changes dated before the one they follow: a clock was set back. No break. */
	readonly clockSetBack: readonly { readonly change: number; readonly at: string; readonly previousAt: string }[];
}

/**
 * Looks at every change of a record and tells each place that does not fit: altered, removed, inserted and moved changes, an
 * end or a document that is another, and a head printed earlier that the record does not hold. What it cannot tell without
 * such a head: that somebody wrote the whole chain anew.
 */
export function verifyRecord(record: StoredRecord, printed?: Head, hash: Hash = sha256): VerifiedRecord {
	const breaks: RecordBreak[] = [];
	const changes = new Map(record.changes.map((change) => [change.number, change]));
	const seals = new Map(record.seals.map((seal) => [seal.number, seal]));
	const numbers = [...new Set([...changes.keys(), ...seals.keys()])].sort((a, b) => a - b);
	const last = numbers.at(-1) ?? 0;
	const clockSetBack: { change: number; at: string; previousAt: string }[] = [];
	let expectedNumber = 1;
	for (const number of numbers) {
		if (number > expectedNumber) breaks.push(toldGap(expectedNumber, number - 1));
		expectedNumber = number + 1;
		const change = changes.get(number);
		const seal = seals.get(number);
		const before = seals.get(number - 1);
		breaks.push(...breaksAt(change, seal, hash).map((code) => told(code, number)));
		const expected = number === 1 ? originOf(record.rollout, record.createdAt, hash) : before?.hash;
		if (change && seal && seal.previous !== expected) breaks.push(told('order-broken', number));
		const previousAt = changes.get(number - 1)?.at;
		if (change && previousAt !== undefined && Date.parse(change.at) < Date.parse(previousAt)) {
			clockSetBack.push({ change: number, at: change.at, previousAt });
		}
	}
	breaks.push(...removalsAltered(record, hash));
	if (record.lastChange !== last || record.revision !== changes.get(last)?.revision)
		breaks.push(told('end-differs', last));
	if (record.documentRevision !== changes.get(last)?.revision) breaks.push(told('document-differs', last));
	breaks.push(...issuesAltered(record, changes));
	if (printed && !seals.get(printed.number)?.hash.startsWith(printed.hash)) {
		breaks.push(told('head-differs', printed.number));
	}
	const end = seals.get(last);
	const head = end ? { number: end.number, hash: end.hash } : null;
	const redacted = record.seals.filter(({ redaction }) => redaction).length;
	return { rollout: record.rollout, changes: record.changes.length, head, breaks, redacted, clockSetBack };
}

/**
 * Issued revisions that are not the state which the record led to, and numbers that are gone: they are given out once. What was
 * issued last and removed whole does not show here. Notes and names on an issue are labels, and no part of the chain.
 */
function issuesAltered({ issues }: StoredRecord, changes: ReadonlyMap<number, RecordedChange>): RecordBreak[] {
	const breaks: RecordBreak[] = [];
	let expected = 1;
	for (const { number, change, revision, documentRevision } of issues) {
		for (; expected < number; expected++) {
			const message = `Revision ${revisionLetter(expected)} is not there: letters are given out in order, and it was removed.`;
			breaks.push({ code: 'issue-altered', change: 0, message });
		}
		expected = number + 1;
		const isAsIssued =
			changes.get(change)?.revision === revision && (documentRevision === null || documentRevision === revision);
		if (!isAsIssued) breaks.push({ code: 'issue-altered', change, message: toldIssue(number, change) });
	}
	return breaks;
}

function toldIssue(number: number, change: number): string {
	return `Revision ${revisionLetter(number)}: its document or what it is said to be is not the state that change ${change} led to.`;
}

/** What was taken out by a change that did not say so, or is not as that change left it. */
function removalsAltered({ changes, seals }: StoredRecord, hash: Hash): RecordBreak[] {
	const leftBy = new Map<number, { number: number; content: string }[]>();
	for (const { number, redaction } of seals) {
		if (redaction)
			leftBy.set(redaction.by, [...(leftBy.get(redaction.by) ?? []), { number, content: redaction.content }]);
	}
	const removals = new Map(
		changes.flatMap(({ number, edit, params }) => (edit === removalEdit ? [[number, digestIn(params)] as const] : []))
	);
	return [...new Set([...leftBy.keys(), ...removals.keys()])]
		.sort((a, b) => a - b)
		.filter((by) => removals.get(by) !== redactionDigest(leftBy.get(by) ?? [], hash))
		.map((by) => told('redaction-altered', by));
}

function digestIn(params: string): unknown {
	return (JSON.parse(params) as { digest?: unknown } | null)?.digest;
}

function breaksAt(change: RecordedChange | undefined, seal: Seal | undefined, hash: Hash): ChangeBreakCode[] {
	if (!change) return ['change-missing'];
	if (!seal) return ['seal-missing'];
	const codes: ChangeBreakCode[] = [];
	const isAsSealed = seal.redaction
		? redactionHashOf(change, hash) === seal.redaction.content
		: contentHashOf(change, seal.salt, hash) === seal.content;
	if (!isAsSealed) codes.push('content-altered');
	if (sealHashOf(change, seal.content, seal.previous, hash) !== seal.hash) codes.push('entry-altered');
	return codes;
}

function told(code: ChangeBreakCode, change: number): RecordBreak {
	return { code, change, message: sentences[code](change) };
}

function toldGap(from: number, to: number): RecordBreak {
	if (from === to) return told('change-missing', from);
	const message = `Changes ${from} to ${to} are not there: they were removed from the record, or later ones put in.`;
	return { code: 'change-missing', change: from, message };
}

const sentences: Readonly<Record<ChangeBreakCode, (change: number) => string>> = {
	'change-missing': (n) => `Change ${n} is not there: it was removed from the record.`,
	'seal-missing': (n) => `Change ${n} has no seal: it was put in from outside, or its seal was removed.`,
	'content-altered': (n) =>
		`Change ${n}: who made it, what it is called, its values or the pieces before and after are not those that were sealed.`,
	'entry-altered': (n) =>
		`Change ${n}: its number, time, kind, revision, what it takes back or its seal are not those that were sealed.`,
	'order-broken': (n) =>
		n === 1
			? 'Change 1 does not begin the record of this rollout.'
			: `Change ${n} does not follow change ${n - 1} as it stands: one was moved, removed, inserted or sealed anew.`,
	'redaction-altered': (n) =>
		`Change ${n} does not account for the changes whose content is said to have been taken out by it: content was taken out, or what is left of it altered, outside of the record.`,
	'end-differs': (n) =>
		`The rollout notes another latest change or revision than the record, which ends with change ${n}: changes were removed from or added to its end.`,
	'document-differs': (n) =>
		`The document is another than the one that change ${n} led to: it was altered outside of the record.`,
	'head-differs': (n) =>
		`Change ${n} does not have the seal that was printed: the record up to there was written anew, or another record was printed.`
};

/** A head as title blocks print it: `12 · 3f09ab77c1`. */
export function shownHead({ number, hash }: Head): string {
	return `${number} · ${hash.slice(0, headDigits)}`;
}

/** Reads a head as it is printed, the seal in full or its first digits. */
export function readHead(text: string, param = 'head'): Result<Head> {
	const [, number, hash] = /^\s*(\d{1,9})\s*[·:,. -]\s*([0-9a-f]{10,64})\s*$/i.exec(text) ?? [];
	if (number !== undefined && hash !== undefined) return ok({ number: Number(number), hash: hash.toLowerCase() });
	const expected = 'a head as title blocks print it, number and at least 10 digits of the seal, like "12 · 3f09ab77c1"';
	return refused([fault([param], text, expected)]);
}
