import { onlyTakes, refusalOf } from '$lib/server/api/respond';
import { exportFiles } from '$lib/server/exports';
import { needRollout } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** Every export with the files that it makes of the rollout. */
export const GET: RequestHandler = ({ params }) => {
	const open = needRollout(params.rollout);
	if (!open.ok) return refusalOf(open);
	const exports = exportFiles(open.value).map(({ entry: { name, title, summary }, files }) => ({
		name,
		title,
		summary,
		files: files.map((file) => ({ name: file.name, type: file.type, about: file.about }))
	}));
	return Response.json({ exports });
};

export const fallback = onlyTakes('GET');
