import { listsByName } from '$lib/core/exports/lists';
import { recordHead } from '$lib/server/rollouts';
import { rolloutOf } from '$lib/server/http/change';
import { exportFiles } from '$lib/server/exports';
import { queryOfChoice, rememberedChoice } from '$lib/server/lists';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params }) => {
	const open = rolloutOf(params);
	return {
		head: recordHead(open.id) ?? null,
		exports: exportFiles(open).map(({ entry, files }) => ({
			name: entry.name,
			title: entry.title,
			summary: entry.summary,
			files: files.map(({ name, about }) => ({ name, about }))
		})),
		lists: [...listsByName.values()].map((list) => {
			const choice = rememberedChoice(open, list);
			const { name, title, summary } = list;
			return { name, title, summary, format: choice.format, query: queryOfChoice(choice) };
		})
	};
};
