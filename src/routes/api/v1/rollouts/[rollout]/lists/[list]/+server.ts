import { faultsOfIssues } from '$lib/core/document/faults-of-issues';
import { tableChoice } from '$lib/core/exports/support/table-choice';
import { onlyTakes, refusal, refusalOf } from '$lib/server/api/respond';
import { noteCopy } from '$lib/server/copies';
import { choiceOfQuery, listFile, needList } from '$lib/server/lists';
import { needRollout } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** A list as CSV or as a workbook, with the columns that the address names. */
export const GET: RequestHandler = async ({ params, url, locals }) => {
	const open = needRollout(params.rollout);
	if (!open.ok) return refusalOf(open);
	const list = needList(params.list);
	if (!list.ok) return refusalOf(list);
	const asked = choiceOfQuery(url.searchParams);
	const choice = tableChoice.safeParse(asked);
	if (!choice.success) return refusal(422, faultsOfIssues(asked, choice.error.issues));
	const file = await listFile(open.value, list.value, choice.data);
	if (!file.ok) return refusalOf(file);
	const { name, type, body } = file.value;
	noteCopy(params.rollout, params.list, `list ${list.value.title}`, name, locals.actor);
	return new Response(body, {
		headers: { 'content-type': type, 'content-disposition': `attachment; filename="${name}"` }
	});
};

export const fallback = onlyTakes('GET');
