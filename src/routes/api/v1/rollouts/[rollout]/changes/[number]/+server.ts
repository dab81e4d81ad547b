import { wholeNumber } from '$lib/server/api/query';
import { onlyTakes, respond } from '$lib/server/api/respond';
import { getChange } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** One change with what it touched, before and after. */
export const GET: RequestHandler = ({ params }) => respond(getChange(params.rollout, wholeNumber(params.number) ?? 0));

export const fallback = onlyTakes('GET');
