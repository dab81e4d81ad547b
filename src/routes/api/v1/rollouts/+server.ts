import { onlyTakes, refusalOf } from '$lib/server/api/respond';
import { receiveDocument } from '$lib/server/api/receive';
import { rolloutShape } from '$lib/server/api/shapes';
import { importDocument, listRollouts } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** Every rollout. */
export const GET: RequestHandler = () => Response.json({ rollouts: listRollouts() });

/** Makes a rollout from a document. */
export const POST: RequestHandler = async ({ request, locals, url }) => {
	const received = await receiveDocument(request);
	if (!received.ok) return received.response;
	const made = importDocument(received.value.text, locals.actor);
	if (!made.ok) return refusalOf(made);
	const location = `${url.pathname.replace(/\/$/, '')}/${encodeURIComponent(made.value.id)}`;
	return Response.json(rolloutShape(made.value), { status: 201, headers: { location } });
};

export const fallback = onlyTakes('GET', 'POST');
