import { rolloutOf } from '$lib/server/http/change';
import { riskView } from '$lib/server/views/matching-risk';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	const asked = (name: string) => url.searchParams.get(name) ?? '';
	return {
		view: await riskView(open, url.searchParams),
		errors: asked('errors'),
		trials: asked('trials'),
		isTestAsked: asked('errors') !== '' || asked('trials') !== ''
	};
};
