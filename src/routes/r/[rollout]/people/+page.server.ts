import { error } from '@sveltejs/kit';
import { readSorting } from '$lib/components/sheet/table';
import check from '$lib/core/answers/check';
import { rolloutOf } from '$lib/server/http/change';
import { putAction } from '$lib/server/http/entry-actions';
import { personIn } from '$lib/server/http/person-form';
import { ask } from '$lib/server/rollouts';
import { peopleRows } from '$lib/server/views/people';
import { personChoices } from '$lib/server/views/person-choices';
import type { Actions, PageServerLoad } from './$types';

const perPage = 60;
const sortable = ['id', 'name', 'department', 'job', 'wave', 'errors'];

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	const found = await ask(open, check, {});
	if (!found.ok) error(422, found.faults[0]?.message ?? '');
	const word = (name: string) => url.searchParams.get(name)?.trim() ?? '';
	const filter = {
		find: word('find'),
		department: word('department'),
		wave: word('wave'),
		standing: word('standing')
	};
	const rows = peopleRows(open.rollout, found.value.findings, filter, readSorting(url, sortable));
	const page = Math.max(1, Number(word('page')) || 1);
	return {
		filter,
		page,
		perPage,
		count: rows.length,
		whole: open.rollout.people.length,
		rows: rows.slice((page - 1) * perPage, page * perPage),
		choices: personChoices(open.rollout)
	};
};

export const actions: Actions = {
	put: putAction('people', personIn, { then: (url, id) => `${url.pathname}/${encodeURIComponent(id)}` })
};
