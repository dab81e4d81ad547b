import { onlyTakes, respond } from '$lib/server/api/respond';
import { getJob, stopJob } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** How far a job is. */
export const GET: RequestHandler = ({ params }) => respond(getJob(params.rollout, params.job));

/** Asks a job to stop with the best that it has. */
export const DELETE: RequestHandler = ({ params }) => respond(stopJob(params.rollout, params.job));

export const fallback = onlyTakes('GET', 'DELETE');
