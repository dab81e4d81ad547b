import { tableChoice } from '$lib/core/exports/support/table-choice';
import { noteCopy } from '$lib/server/copies';
import { rolloutOf } from '$lib/server/http/change';
import { choiceOfQuery, listFile, needList } from '$lib/server/lists';
import { error } from '@sveltejs/kit';
import type { RequestHandler } from './$types';

/** A list as a file, with the columns that the address names. */
export const GET: RequestHandler = async ({ params, url, locals }) => {
	const open = rolloutOf(params);
	const list = needList(params.list);
	if (!list.ok) error(404, list.faults[0]?.message ?? '');
	const choice = tableChoice.safeParse(choiceOfQuery(url.searchParams));
	if (!choice.success) error(422, choice.error.issues[0]?.message ?? '');
	const file = await listFile(open, list.value, choice.data);
	if (!file.ok) error(422, file.faults.map(({ message }) => message).join(' '));
	const { name, type, body } = file.value;
	noteCopy(open.id, params.list, `list ${list.value.title}`, name, locals.actor);
	return new Response(body, {
		headers: { 'content-type': type, 'content-disposition': `attachment; filename="${name}"` }
	});
};
