import { z } from 'zod';
import { entry } from '$lib/core/document/fields';
import { faultsOfIssues } from '$lib/core/document/faults-of-issues';
import { receiveJson } from '$lib/server/api/receive';
import { onlyTakes, refusal, refusalOf, respond } from '$lib/server/api/respond';
import { listJobs, needRollout, startJob } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

const body = entry({ answer: z.string({ error: 'the name of a question' }), params: z.unknown().optional() });

/** Jobs since the server started, the latest first. */
export const GET: RequestHandler = ({ params }) =>
	respond(needRollout(params.rollout), ({ id }) => ({ jobs: listJobs(id) }));

/** Starts long work on a question. */
export const POST: RequestHandler = async ({ params, request, locals, url }) => {
	const received = await receiveJson(request);
	if (!received.ok) return received.response;
	const parsed = body.safeParse(received.value);
	if (!parsed.success) return refusal(422, faultsOfIssues(received.value, parsed.error.issues));
	const job = await startJob(params.rollout, parsed.data.answer, parsed.data.params ?? {}, locals.actor);
	if (!job.ok) return refusalOf(job);
	const location = `${url.pathname.replace(/\/$/, '')}/${job.value.id}`;
	return Response.json(job.value, { status: 202, headers: { location } });
};

export const fallback = onlyTakes('GET', 'POST');
