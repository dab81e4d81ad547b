import { wholeNumber } from '$lib/server/api/query';
import { onlyTakes, respond } from '$lib/server/api/respond';
import { listChanges } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

const most = 500;

/** The change record, the latest first: `limit` entries older than the number `before`. */
export const GET: RequestHandler = ({ params, url }) => {
	const before = wholeNumber(url.searchParams.get('before'));
	const limit = Math.min(wholeNumber(url.searchParams.get('limit')) ?? 50, most);
	return respond(listChanges(params.rollout, before, limit), (changes) => ({ changes }));
};

export const fallback = onlyTakes('GET');
