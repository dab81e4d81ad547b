import { findKeyFaults } from '../../core/document/key-faults';
import { readRollout } from '../../core/answers/support/read-rollout';
import type { ReadDocument } from '../../core/document/read';
import { type Fault, fault } from '../../core/kernel/fault';
import { refusal } from './respond';

/** The most bytes that a request may carry: three times a rollout of 20,000 people with everything recorded. */
export const mostBytes = 32 * 2 ** 20;

/** What was sent, or the response that refuses it. */
export type Received<T> =
	{ readonly ok: true; readonly value: T } | { readonly ok: false; readonly response: Response };

/**
 * Receives a body of a content type, up to `mostBytes`. Refuses another type with 415 and a larger one with 413, without
 * reading it to its end.
 */
export async function receiveBytes(request: Request, types: readonly string[]): Promise<Received<Uint8Array>> {
	const type = (request.headers.get('content-type') ?? '').split(';')[0]?.trim().toLowerCase() ?? '';
	if (!types.includes(type)) {
		return no(415, fault(['content-type'], type, `one of the content types ${types.join(', ')}`));
	}
	const told = Number(request.headers.get('content-length') ?? 0);
	if (told > mostBytes) return no(413, tooLarge(told));
	const chunks: Uint8Array[] = [];
	let length = 0;
	const reader = request.body?.getReader();
	for (let part = await reader?.read(); part && !part.done; part = await reader?.read()) {
		length += part.value.byteLength;
		// Not cancelled: that would cut the connection before the answer is through.
		if (length > mostBytes) return no(413, tooLarge(length));
		chunks.push(part.value);
	}
	return { ok: true, value: Buffer.concat(chunks) };
}

/** Receives a JSON value; nothing at all is an empty object. Keys that stand twice in one object are refused too. */
export async function receiveJson(request: Request): Promise<Received<unknown>> {
	const hasBody = request.body !== null && request.headers.get('content-length') !== '0';
	if (!hasBody) return { ok: true, value: {} };
	const bytes = await receiveBytes(request, ['application/json']);
	if (!bytes.ok) return bytes;
	try {
		const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes.value);
		const value: unknown = JSON.parse(text);
		const faults = findKeyFaults(text);
		return faults.length > 0 ? no(400, faults) : { ok: true, value };
	} catch (error) {
		const reason = error instanceof Error ? error.message : String(error);
		return no(400, fault([], `${bytes.value.length} bytes`, `JSON in UTF-8 (${reason})`));
	}
}

/** Receives a rollout document; 400 for what is no JSON, 422 for JSON that is no such document. */
export async function receiveDocument(request: Request): Promise<Received<ReadDocument>> {
	const bytes = await receiveBytes(request, ['application/json', 'application/octet-stream']);
	if (!bytes.ok) return bytes;
	const read = readRollout(bytes.value);
	if (read.ok) return read;
	return no(isJson(bytes.value) ? 422 : 400, read.faults);
}

function isJson(bytes: Uint8Array): boolean {
	try {
		JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
		return true;
	} catch {
		return false;
	}
}

function tooLarge(length: number) {
	return fault(['content-length'], length, `at most ${mostBytes} bytes`);
}

function no(status: number, faults: Fault | readonly Fault[]): { readonly ok: false; readonly response: Response } {
	return { ok: false, response: refusal(status, 'path' in faults ? [faults] : faults) };
}
