import { onlyTakes, respond } from '$lib/server/api/respond';
import { changedShape } from '$lib/server/api/shapes';
import { redo } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** Makes the change again that was taken back last. */
export const POST: RequestHandler = ({ params, locals }) => respond(redo(params.rollout, locals.actor), changedShape);

export const fallback = onlyTakes('POST');
