import { onlyTakes, respond } from '$lib/server/api/respond';
import { rolloutShape } from '$lib/server/api/shapes';
import { restoreRollout } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** Takes the deletion of the rollout back. */
export const POST: RequestHandler = ({ params }) => respond(restoreRollout(params.rollout), rolloutShape);

export const fallback = onlyTakes('POST');
