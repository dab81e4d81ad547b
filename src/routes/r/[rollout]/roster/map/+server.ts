import { error } from '@sveltejs/kit';
import { todayAt } from '$lib/server/clock';
import { rolloutOf } from '$lib/server/http/change';
import { previewOf } from '$lib/server/jobs/roster-readings';
import { findRoster } from '$lib/server/roster-drafts';
import type { RequestHandler } from './$types';

/** How a list is taken, as the file that the command line takes with `--map`. */
export const GET: RequestHandler = async ({ params, url }) => {
	const open = rolloutOf(params);
	const draft = findRoster(params.rollout, url.searchParams.get('draft') ?? '');
	if (!draft) error(404, 'That file is no longer kept here. Choose it again.');
	const read = await previewOf(open, draft, todayAt(open.rollout.site.timeZone));
	if (!read.ok) error(422, read.faults[0]?.message ?? '');
	return new Response(`${JSON.stringify(read.value.map, undefined, '\t')}\n`, {
		headers: {
			'content-type': 'application/json',
			'content-disposition': 'attachment; filename="roster-map.json"',
			'cache-control': 'no-store'
		}
	});
};
