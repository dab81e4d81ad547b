import { rolloutOf } from '$lib/server/http/change';
import { putAction, removeAction } from '$lib/server/http/entry-actions';
import { textIn } from '$lib/server/http/forms';
import { entriesIn, whoIn } from '$lib/server/views/profile-form';
import { assignmentViews, profileViews, whoChoices } from '$lib/server/views/profiles';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url }) => {
	const { rollout } = rolloutOf(params);
	const options = (entries: readonly { id: string; name: string | null }[]) =>
		entries.map(({ id, name }) => ({ value: id, label: name ?? id }));
	return {
		profiles: profileViews(rollout),
		assignments: assignmentViews(rollout),
		doorGroups: options(rollout.doorGroups),
		schedules: options(rollout.schedules),
		choices: whoChoices(rollout),
		chosen: { profile: url.searchParams.get('profile'), assignment: url.searchParams.get('assignment') }
	};
};

export const actions: Actions = {
	putProfile: putAction(
		'accessProfiles',
		(form) => ({ id: textIn(form, 'id') ?? '', name: textIn(form, 'name'), entries: entriesIn(form) }),
		{ then: (url, id) => `${url.pathname}?profile=${encodeURIComponent(id)}#profiles` }
	),
	removeProfile: removeAction('accessProfiles'),
	putAssignment: putAction(
		'assignments',
		(form) => ({
			id: textIn(form, 'id') ?? '',
			who: whoIn(form),
			accessProfile: textIn(form, 'accessProfile') ?? '',
			from: textIn(form, 'from'),
			until: textIn(form, 'until'),
			approvedBy: textIn(form, 'approvedBy')
		}),
		{ then: (url, id) => `${url.pathname}?assignment=${encodeURIComponent(id)}#assignments` }
	),
	removeAssignment: removeAction('assignments', (url) => `${url.pathname}#assignments`)
};
