import { onlyTakes, respond } from '$lib/server/api/respond';
import { listProposals, needRollout } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** What long work found, the latest first, without the answers themselves. */
export const GET: RequestHandler = ({ params }) =>
	respond(needRollout(params.rollout), ({ id }) => ({ proposals: listProposals(id) }));

export const fallback = onlyTakes('GET');
