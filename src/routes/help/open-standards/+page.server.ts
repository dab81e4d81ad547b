import { exportsByName } from '$lib/core/exports';
import { listsByName } from '$lib/core/exports/lists';
import { openModelMapping } from '$lib/core/exports/open-model/mapping';
import { reportKinds } from '$lib/core/exports/open-model/report';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = () => ({
	exports: [...exportsByName.values()].map(({ name, title, summary }) => ({ name, title, summary })),
	lists: [...listsByName.values()].map(({ name, title, summary }) => ({ name, title, summary })),
	mapping: openModelMapping.map((row, place) => ({ ...row, place })),
	kinds: Object.entries(reportKinds).map(([kind, { effect, why }]) => ({ kind, effect, why }))
});
