import { onlyTakes, refusalOf, respond } from '$lib/server/api/respond';
import { noteCopy } from '$lib/server/copies';
import { issuedDocument, withdrawIssue } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** The document as it was issued; `download` in the query offers it as a file. */
export const GET: RequestHandler = ({ params, url, locals }) => {
	const document = issuedDocument(params.rollout, params.letter);
	if (!document.ok) return refusalOf(document);
	const name = `${params.rollout}-revision-${params.letter}.json`;
	noteCopy(params.rollout, 'issue', `issued revision ${params.letter}`, name, locals.actor);
	return new Response(document.value, {
		headers: {
			'content-type': 'application/json',
			...(url.searchParams.has('download') ? { 'content-disposition': `attachment; filename="${name}"` } : {})
		}
	});
};

/** Withdraws it: the document is erased. */
export const DELETE: RequestHandler = ({ params, locals }) =>
	respond(withdrawIssue(params.rollout, params.letter, locals.actor));

export const fallback = onlyTakes('GET', 'DELETE');
