import { error } from '@sveltejs/kit';
import personRecord from '$lib/core/answers/person-record';
import { todayAt } from '$lib/server/clock';
import { noteCopy } from '$lib/server/copies';
import { rolloutOf } from '$lib/server/http/change';
import { ask } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** Everything held on one person as JSON, for saving. */
export const GET: RequestHandler = async ({ params, locals }) => {
	const open = rolloutOf(params);
	const on = todayAt(open.rollout.site.timeZone);
	const record = await ask(open, personRecord, { person: params.person, on });
	if (!record.ok) error(404, record.faults[0]?.message ?? 'There is no such person.');
	noteCopy(open.id, 'person-record', 'everything held on one person', `${open.id}-person-record.json`, locals.actor);
	return new Response(`${JSON.stringify(record.value, null, 2)}\n`, {
		headers: {
			'content-type': 'application/json; charset=utf-8',
			'content-disposition': `attachment; filename="${open.id}-person-record.json"`
		}
	});
};
