import { blanksOf } from '$lib/core/privacy/define-paper';
import { papers } from '$lib/core/privacy/papers';
import { change, rolloutOf } from '$lib/server/http/change';
import { textIn } from '$lib/server/http/forms';
import { officeFields } from './office-fields';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params }) => {
	const { rollout } = rolloutOf(params);
	return {
		papers: [...papers.values()].map(({ id, title, about, make }) => ({
			id,
			title,
			about,
			blanks: blanksOf(make(rollout)).length
		})),
		office: Object.fromEntries(officeFields.map(({ name }) => [name, rollout.privacy.office?.[name] ?? '']))
	};
};

export const actions: Actions = {
	office: async (event) => {
		const form = await event.request.formData();
		const { document } = rolloutOf(event.params);
		const typed = Object.fromEntries(officeFields.map(({ name }) => [name, textIn(form, name)]));
		const all = Object.entries({ ...document.privacy?.office, ...typed });
		const value = Object.fromEntries(all.filter(([, one]) => one !== null));
		return change(event, form, 'set-part', { part: 'privacy.office', value });
	}
};
