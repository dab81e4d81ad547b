import { rolloutOf } from '$lib/server/http/change';
import { exportFiles } from '$lib/server/exports';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params }) => {
	const open = rolloutOf(params);
	return {
		exports: exportFiles(open).map(({ entry, files }) => ({
			name: entry.name,
			title: entry.title,
			summary: entry.summary,
			files: files.map(({ name, about }) => ({ name, about }))
		}))
	};
};
