import { onlyTakes, refusalOf } from '$lib/server/api/respond';
import { noteCopy } from '$lib/server/copies';
import { contentType, findExportFile } from '$lib/server/exports';
import { needRollout } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** A file of an export. */
export const GET: RequestHandler = ({ params, locals }) => {
	const open = needRollout(params.rollout);
	if (!open.ok) return refusalOf(open);
	const file = findExportFile(open.value, params.export, params.file);
	if (!file.ok) return refusalOf(file);
	noteCopy(params.rollout, params.export, `export ${params.export}`, params.file, locals.actor);
	return new Response(file.value.content(), { headers: { 'content-type': contentType(file.value) } });
};

export const fallback = onlyTakes('GET');
