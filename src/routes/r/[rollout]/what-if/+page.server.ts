import { sheetHref } from '$lib/components/sheet/sheets';
import type { WhatIf } from '$lib/core/answers/what-if';
import { change, rolloutOf } from '$lib/server/http/change';
import { numberIn, textIn } from '$lib/server/http/forms';
import { refusedForm } from '$lib/server/http/change';
import { longWorkOf, stopAction } from '$lib/server/http/job-actions';
import { startJob } from '$lib/server/jobs/jobs';
import { discardProposal } from '$lib/server/proposals';
import { variantChanges, variantsView } from '$lib/server/views/variants';
import { changesIn } from '$lib/server/views/what-if';
import { redirect } from '@sveltejs/kit';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url, depends }) => {
	depends('app:what-if');
	const open = rolloutOf(params);
	const { people, enrollment } = open.rollout;
	const { job } = longWorkOf<WhatIf>(open, 'what-if', url);
	const named = <T extends { id: string; name: string | null }>(entries: readonly T[]) =>
		entries.map(({ id, name }) => ({ value: id, label: name ?? id }));
	return {
		job,
		people: people.length,
		stations: named(enrollment.stations),
		waves: named(enrollment.waves.filter(({ enrollBy }) => enrollBy !== null)),
		departments: enrollment.awayLimits.flatMap(({ department, maxAway }, place) =>
			maxAway === null ? [] : [{ value: String(place), label: `${department} (now ${maxAway})` }]
		),
		tried: variantsView(open)
	};
};

export const actions: Actions = {
	start: async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const changes = changesIn(rolloutOf(params).rollout, form);
		if (!changes.ok) return refusedForm(changes, form, url);
		const asked = {
			edits: JSON.stringify(changes.value),
			seconds: numberIn(form, 'seconds') ?? 10,
			seed: numberIn(form, 'seed') ?? 1
		};
		const outcome = await startJob(params.rollout, 'what-if', asked, locals.actor);
		if (!outcome.ok) return refusedForm(outcome, form, url);
		redirect(303, `${url.pathname}?job=${outcome.value.id}`);
	},
	stop: stopAction,
	make: async (event) => {
		const form = await event.request.formData();
		const changes = variantChanges(rolloutOf(event.params), Number(textIn(form, 'number')));
		if (!changes.ok) return refusedForm(changes, form, event.url);
		return change(event, form, 'all-of', changes.value, sheetHref(event.params.rollout, 'plan#run'));
	},
	discard: async ({ request, params, url }) => {
		const form = await request.formData();
		const outcome = discardProposal(params.rollout, Number(textIn(form, 'number')));
		return outcome.ok ? redirect(303, url.pathname) : refusedForm(outcome, form, url);
	}
};
