import { onlyTakes, refusalOf } from '$lib/server/api/respond';
import { findExportFile } from '$lib/server/exports';
import { needRollout } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** A file of an export. */
export const GET: RequestHandler = ({ params }) => {
	const open = needRollout(params.rollout);
	if (!open.ok) return refusalOf(open);
	const file = findExportFile(open.value, params.export, params.file);
	if (!file.ok) return refusalOf(file);
	const { type, content } = file.value;
	return new Response(content(), { headers: { 'content-type': `${type}; charset=utf-8` } });
};

export const fallback = onlyTakes('GET');
