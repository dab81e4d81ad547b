import { wholeNumber } from '$lib/server/api/query';
import { onlyTakes, respond } from '$lib/server/api/respond';
import { discardProposal, getProposal } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** A proposal with its answer. */
export const GET: RequestHandler = ({ params }) =>
	respond(getProposal(params.rollout, wholeNumber(params.number) ?? 0));

/** Removes a proposal that was not adopted. */
export const DELETE: RequestHandler = ({ params }) =>
	respond(discardProposal(params.rollout, wholeNumber(params.number) ?? 0), () => ({}));

export const fallback = onlyTakes('GET', 'DELETE');
