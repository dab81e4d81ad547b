import { z } from 'zod';
import { entry } from '$lib/core/document/fields';
import { faultsOfIssues } from '$lib/core/document/faults-of-issues';
import { wholeNumber } from '$lib/server/api/query';
import { receiveJson } from '$lib/server/api/receive';
import { onlyTakes, refusal, respond } from '$lib/server/api/respond';
import { changedShape } from '$lib/server/api/shapes';
import { adoptProposal } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

const body = entry({ evenIfOutdated: z.boolean({ error: 'true or false' }).optional() });

/** Takes a proposed plan's bookings over into the document. */
export const POST: RequestHandler = async ({ params, request, locals }) => {
	const received = await receiveJson(request);
	if (!received.ok) return received.response;
	const parsed = body.safeParse(received.value);
	if (!parsed.success) return refusal(422, faultsOfIssues(received.value, parsed.error.issues));
	const number = wholeNumber(params.number) ?? 0;
	return respond(adoptProposal(params.rollout, number, locals.actor, parsed.data.evenIfOutdated), changedShape);
};

export const fallback = onlyTakes('POST');
