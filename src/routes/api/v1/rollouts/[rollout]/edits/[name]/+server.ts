import { receiveJson } from '$lib/server/api/receive';
import { onlyTakes, respond } from '$lib/server/api/respond';
import { changedShape, revisionSeen } from '$lib/server/api/shapes';
import { editRollout } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** Makes a change; its parameters are sent as JSON. */
export const POST: RequestHandler = async ({ params, request, locals }) => {
	const received = await receiveJson(request);
	if (!received.ok) return received.response;
	const seen = revisionSeen(request);
	return respond(editRollout(params.rollout, params.name, received.value, locals.actor, seen), changedShape);
};

export const fallback = onlyTakes('POST');
