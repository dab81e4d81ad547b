import { onlyTakes, respond } from '$lib/server/api/respond';
import { verifyRollout } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** Verifies the change record, also against a head that was printed earlier. */
export const GET: RequestHandler = ({ params, url }) =>
	respond(verifyRollout(params.rollout, url.searchParams.get('head') ?? undefined), (record) => record);

export const fallback = onlyTakes('GET');
