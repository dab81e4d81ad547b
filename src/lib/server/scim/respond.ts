import {
	type Json,
	type JsonObject,
	type ScimError,
	type ScimResult,
	errorBody,
	given,
	refusedWith,
	wrong
} from '../../core/roster/scim/scim-result';
import { mostScimBytes } from '../../core/roster/scim/discovery';
import { findKeyFaults } from '../../core/document/key-faults';

const contentType = 'application/scim+json';

/** An answer with a body. @source RFC 7644, section 3.1 (content type) */
export function scimResponse(body: JsonObject, status = 200, headers: Readonly<Record<string, string>> = {}): Response {
	return new Response(JSON.stringify(body), {
		status,
		headers: { 'content-type': `${contentType};charset=utf-8`, ...headers }
	});
}

/** A refusal. @source RFC 7644, section 3.12 */
export function scimRefusal(error: ScimError, headers: Readonly<Record<string, string>> = {}): Response {
	return scimResponse(errorBody(error), error.status, headers);
}

/** Receives a body. `application/json` is taken too, as section 3.1 of RFC 7644 allows. */
export async function receiveScim(request: Request): Promise<ScimResult<Json>> {
	const type = (request.headers.get('content-type') ?? '').split(';')[0]?.trim().toLowerCase() ?? '';
	if (type !== contentType && type !== 'application/json') {
		return refusedWith(415, `The content type is ${type || 'missing'}, expected is ${contentType}.`);
	}
	const tooLarge = refusedWith(413, `The body is larger than ${mostScimBytes} bytes.`);
	if (Number(request.headers.get('content-length') ?? 0) > mostScimBytes) return tooLarge;
	const bytes = new Uint8Array(await request.arrayBuffer());
	if (bytes.length > mostScimBytes) return tooLarge;
	try {
		const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
		const value = JSON.parse(text) as Json;
		const [repeated] = findKeyFaults(text);
		return repeated ? wrong('invalidSyntax', repeated.message) : given(value);
	} catch {
		return wrong('invalidSyntax', 'The body is no JSON in UTF-8.');
	}
}
