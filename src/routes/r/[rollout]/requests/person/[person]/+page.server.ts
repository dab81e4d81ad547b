import { error } from '@sveltejs/kit';
import personRecord from '$lib/core/answers/person-record';
import { recordParts } from '$lib/core/privacy/record-text';
import { todayAt } from '$lib/server/clock';
import { rolloutOf } from '$lib/server/http/change';
import { ask } from '$lib/server/rollouts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params }) => {
	const open = rolloutOf(params);
	const on = todayAt(open.rollout.site.timeZone);
	const record = await ask(open, personRecord, { person: params.person, on });
	if (!record.ok) error(404, record.faults[0]?.message ?? 'There is no such person.');
	const { person, leftOut, site } = record.value;
	return { on, person: person.id, name: person.name ?? person.id, site, parts: recordParts(record.value), leftOut };
};
