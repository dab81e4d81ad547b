import { rolloutOf } from '$lib/server/http/change';
import { walkInView } from '$lib/server/views/walk-in';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	return { view: await walkInView(open, url), people: open.rollout.people.length };
};
