import { redirect } from '@sveltejs/kit';
import { countries } from '$lib/core/calendar/statutory-holidays';
import { shownAt, todayAt } from '$lib/server/clock';
import { refusedForm } from '$lib/server/http/change';
import { isTicked, textIn } from '$lib/server/http/forms';
import { fault } from '$lib/core/kernel/fault';
import {
	createRollout,
	daysRestorable,
	deleteRollout,
	eraseRollout,
	importDocument,
	listRemovedRollouts,
	listRollouts,
	restoreRollout
} from '$lib/server/rollouts';
import { refuse } from '$lib/server/outcome';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ locals }) => {
	const today = todayAt('UTC');
	return {
		actor: locals.actor,
		daysRestorable,
		rollouts: listRollouts().map((row) => ({ ...row, shownAt: shownAt('UTC', row.changedAt) })),
		removed: listRemovedRollouts().map((row) => ({
			id: row.id,
			name: row.name,
			removedAt: shownAt('UTC', row.removedAt ?? '')
		})),
		countries: countries().map(({ code, name }) => ({ value: code, label: name })),
		timeZones: Intl.supportedValuesOf('timeZone'),
		start: { from: today, until: `${Number(today.slice(0, 4)) + 1}-12-31` }
	};
};

export const actions: Actions = {
	import: async ({ request, locals, url }) => {
		const form = await request.formData();
		const file = form.get('document');
		if (!(file instanceof File) || file.name === '') {
			const missing = refuse('invalid', fault(['document'], null, 'a rollout document: choose a file first'));
			return missing.ok ? undefined : refusedForm(missing, form, url);
		}
		const outcome = importDocument(new Uint8Array(await file.arrayBuffer()), locals.actor);
		if (!outcome.ok) return refusedForm(outcome, form, url);
		redirect(303, `/r/${encodeURIComponent(outcome.value.id)}/findings`);
	},
	create: async ({ request, locals, url }) => {
		const form = await request.formData();
		const outcome = createRollout(
			{
				name: textIn(form, 'name') ?? '',
				timeZone: textIn(form, 'timeZone') ?? '',
				country: textIn(form, 'country'),
				region: textIn(form, 'region'),
				from: textIn(form, 'from') ?? '',
				until: textIn(form, 'until') ?? ''
			},
			locals.actor
		);
		if (!outcome.ok) return refusedForm(outcome, form, url);
		redirect(303, `/r/${encodeURIComponent(outcome.value.id)}/site`);
	},
	delete: async ({ request, locals, url }) => {
		const form = await request.formData();
		const outcome = deleteRollout(textIn(form, 'id') ?? '', textIn(form, 'name') ?? '', locals.actor);
		return outcome.ok ? redirect(303, '/') : refusedForm(outcome, form, url);
	},
	restore: async ({ request, url }) => {
		const form = await request.formData();
		const outcome = restoreRollout(textIn(form, 'id') ?? '');
		return outcome.ok ? redirect(303, '/') : refusedForm(outcome, form, url);
	},
	erase: async ({ request, url }) => {
		const form = await request.formData();
		if (!isTicked(form, 'sure')) redirect(303, '/');
		const outcome = eraseRollout(textIn(form, 'id') ?? '', textIn(form, 'name') ?? '');
		return outcome.ok ? redirect(303, '/') : refusedForm(outcome, form, url);
	}
};
