import { type Fault, fault } from '../kernel/fault';
import { type Result, ok, refused } from '../kernel/result';
import { findJsonEnd } from './json-place';
import { findKeyFaults } from './key-faults';
import type { KnownOutside } from './known-outside';
import { type ReadDocument, readChanged } from './read-changed';

export type { KnownOutside, ReadDocument };

/**
 * Reads the bytes or the text of a rollout document. Refuses with every fault at once: bytes that are no UTF-8, text
 * that is no JSON, repeated keys, unknown keys, malformed values, repeated and dangling ids, limits in the wrong order.
 * A byte order mark is skipped.
 */
export function readDocument(input: Uint8Array | string, known: KnownOutside): Result<ReadDocument> {
	const text = typeof input === 'string' ? ok(input.replace(/^\ufeff/, '')) : readText(input);
	if (!text.ok) return text;
	let value: unknown;
	try {
		value = JSON.parse(text.value);
	} catch {
		return refused([notJson(text.value)]);
	}
	const keyFaults = findKeyFaults(text.value);
	const read = readValue(value, known);
	if (read.ok && keyFaults.length === 0) return read;
	const told = new Set(keyFaults.map((one) => one.path));
	return refused([...keyFaults, ...(read.ok ? [] : read.faults.filter((one) => !told.has(one.path)))]);
}

/** As `readDocument`, of a value that was parsed already (and therefore can repeat no key). */
export function readValue(value: unknown, known: KnownOutside): Result<ReadDocument> {
	return readChanged(null, value, known);
}

function readText(bytes: Uint8Array): Result<string> {
	if (bytes.length === 0) return refused([fault([], '', 'a rollout document in JSON; the file is empty')]);
	try {
		return ok(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
	} catch {
		return refused([
			fault([], `${bytes.length} bytes`, 'JSON in UTF-8; these bytes are in another encoding. Save the file as UTF-8')
		]);
	}
}

/** Where JSON broke off, by line and column, so that a person can find it. */
function notJson(text: string): Fault {
	if (text.trim() === '') return fault([], text.slice(0, 40), 'a rollout document in JSON; there is nothing in it');
	const at = findJsonEnd(text) ?? text.length;
	const before = text.slice(0, at);
	const line = before.split('\n').length;
	const column = at - before.lastIndexOf('\n');
	const found = text.slice(at, at + 40);
	const where = `line ${line}, column ${column}`;
	return fault(
		[],
		found,
		at >= text.length
			? `complete JSON; it breaks off at ${where}. The file may be cut short`
			: `JSON; it stops being JSON at ${where}`
	);
}
