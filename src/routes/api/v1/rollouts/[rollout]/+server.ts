import { writeDocument } from '$lib/core/document/write';
import { receiveDocument } from '$lib/server/api/receive';
import { onlyTakes, refusalOf, respond } from '$lib/server/api/respond';
import { noteCopy } from '$lib/server/copies';
import { changedShape, revisionSeen } from '$lib/server/api/shapes';
import { deleteRollout, editRollout, needRollout } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** The document. */
export const GET: RequestHandler = ({ params, locals }) => {
	const open = needRollout(params.rollout);
	if (!open.ok) return refusalOf(open);
	noteCopy(params.rollout, 'document', 'document, by the API', `${params.rollout}.json`, locals.actor);
	const headers = { 'content-type': 'application/json', etag: `"${open.value.revision}"` };
	return new Response(writeDocument(open.value.document), { headers });
};

/** Puts another document in place of this one, as one change. */
export const PUT: RequestHandler = async ({ params, request, locals }) => {
	const open = needRollout(params.rollout);
	if (!open.ok) return refusalOf(open);
	const received = await receiveDocument(request);
	if (!received.ok) return received.response;
	const { document } = received.value;
	const seen = revisionSeen(request);
	return respond(editRollout(params.rollout, 'replace-document', { document }, locals.actor, seen), changedShape);
};

/** Deletes the rollout; the site's name, as `name` in the address, says that it is meant. It can be restored for a while. */
export const DELETE: RequestHandler = ({ params, url, locals }) =>
	respond(deleteRollout(params.rollout, url.searchParams.get('name') ?? '', locals.actor));

export const fallback = onlyTakes('GET', 'PUT', 'DELETE');
