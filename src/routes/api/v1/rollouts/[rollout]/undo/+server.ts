import { z } from 'zod';
import { entry } from '$lib/core/document/fields';
import { faultsOfIssues } from '$lib/core/document/faults-of-issues';
import { receiveJson } from '$lib/server/api/receive';
import { onlyTakes, refusal, respond } from '$lib/server/api/respond';
import { changedShape } from '$lib/server/api/shapes';
import { undo } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

const expected = { error: 'the number of a change' };
const body = entry({ change: z.int(expected).min(1, expected).optional() });

/** Takes a change back: the one named, else the latest in effect. */
export const POST: RequestHandler = async ({ params, request, locals }) => {
	const received = await receiveJson(request);
	if (!received.ok) return received.response;
	const parsed = body.safeParse(received.value);
	if (!parsed.success) return refusal(422, faultsOfIssues(received.value, parsed.error.issues));
	return respond(undo(params.rollout, locals.actor, parsed.data.change), changedShape);
};

export const fallback = onlyTakes('POST');
