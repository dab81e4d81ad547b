import { error } from '@sveltejs/kit';
import { papers } from '$lib/core/privacy/papers';
import { todayAt } from '$lib/server/clock';
import { rolloutOf } from '$lib/server/http/change';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params }) => {
	const { rollout } = rolloutOf(params);
	const paper = papers.get(params.paper);
	if (paper === undefined) error(404, `There is no such paper. There are: ${[...papers.keys()].join(', ')}.`);
	return { title: paper.title, sections: paper.make(rollout), today: todayAt(rollout.site.timeZone) };
};
