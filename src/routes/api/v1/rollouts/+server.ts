import { onlyTakes } from '$lib/server/api/respond';
import { receiveDocument } from '$lib/server/api/receive';
import { rolloutShape } from '$lib/server/api/shapes';
import { importRead, listRollouts } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** Every rollout. */
export const GET: RequestHandler = () => Response.json({ rollouts: listRollouts() });

/** Makes a rollout from a document. */
export const POST: RequestHandler = async ({ request, locals, url }) => {
	const received = await receiveDocument(request);
	if (!received.ok) return received.response;
	const made = importRead(received.value, locals.actor);
	const location = `${url.pathname.replace(/\/$/, '')}/${encodeURIComponent(made.id)}`;
	return Response.json(rolloutShape(made), { status: 201, headers: { location } });
};

export const fallback = onlyTakes('GET', 'POST');
