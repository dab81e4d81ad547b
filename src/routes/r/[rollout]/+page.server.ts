import { redirect } from '@sveltejs/kit';
import { sheetHref } from '$lib/components/sheet/sheets';
import type { PageServerLoad } from './$types';

/** A rollout opens where the work is: at its findings, or at the site while there is nothing to check. */
export const load: PageServerLoad = async ({ parent }) => {
	const { id, figures } = await parent();
	redirect(307, sheetHref(id, figures.site?.text === '0 doors' ? 'site' : 'findings'));
};
