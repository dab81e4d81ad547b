import { receiveJson } from '$lib/server/api/receive';
import { onlyTakes, respond } from '$lib/server/api/respond';
import { issueRollout, listIssues } from '$lib/server/rollouts';
import { fieldOf } from '$lib/core/document/walk';
import type { RequestHandler } from './$types';

/** Revisions that were issued, the latest first. */
export const GET: RequestHandler = ({ params }) => respond(listIssues(params.rollout), (issues) => ({ issues }));

/** Issues the rollout as it stands. */
export const POST: RequestHandler = async ({ params, request, locals }) => {
	const received = await receiveJson(request);
	if (!received.ok) return received.response;
	const note = fieldOf(received.value, 'note');
	return respond(issueRollout(params.rollout, typeof note === 'string' ? note : '', locals.actor), undefined, 201);
};

export const fallback = onlyTakes('GET', 'POST');
