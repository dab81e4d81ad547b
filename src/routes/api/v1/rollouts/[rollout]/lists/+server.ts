import { onlyTakes, refusalOf } from '$lib/server/api/respond';
import { offeredLists } from '$lib/server/lists';
import { needRollout } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** Every list that can be taken out as a table, with its columns. */
export const GET: RequestHandler = ({ params }) => {
	const open = needRollout(params.rollout);
	return open.ok ? Response.json({ lists: offeredLists(open.value) }) : refusalOf(open);
};

export const fallback = onlyTakes('GET');
