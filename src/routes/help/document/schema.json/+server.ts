import { documentJsonSchema } from '$lib/core/document/json-schema';
import type { RequestHandler } from './$types';

/** The JSON Schema of the rollout document, for editors and other programs. */
export const GET: RequestHandler = () =>
	new Response(`${JSON.stringify(documentJsonSchema(), null, '\t')}\n`, {
		headers: { 'content-type': 'application/schema+json' }
	});
