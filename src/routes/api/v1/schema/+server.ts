import { documentJsonSchema } from '$lib/core/document/json-schema';
import { onlyTakes } from '$lib/server/api/respond';

/** The JSON Schema of a rollout document. */
export const GET = () =>
	new Response(JSON.stringify(documentJsonSchema()), { headers: { 'content-type': 'application/schema+json' } });

export const fallback = onlyTakes('GET');
