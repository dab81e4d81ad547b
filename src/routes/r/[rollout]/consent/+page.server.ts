import { error } from '@sveltejs/kit';
import retention from '$lib/core/answers/retention';
import { contentsFor } from '$lib/core/privacy/notice-contents';
import { todayAt } from '$lib/server/clock';
import { change, rolloutOf } from '$lib/server/http/change';
import { putAction, removeAction } from '$lib/server/http/entry-actions';
import { chosenIn, isTicked, textIn } from '$lib/server/http/forms';
import { ask } from '$lib/server/rollouts';
import { consentRows } from '$lib/server/views/consent';
import { personOptions } from '$lib/server/views/person-options';
import type { Actions, PageServerLoad } from './$types';

const perPage = 60;

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	const { rollout } = open;
	const on = todayAt(rollout.site.timeZone);
	const kept = await ask(open, retention, { on });
	if (!kept.ok) error(422, kept.faults[0]?.message ?? '');
	const word = (name: string) => url.searchParams.get(name)?.trim() ?? '';
	const filter = { find: word('find'), decision: word('decision') };
	const rows = consentRows(rollout, on, filter);
	const page = Math.max(1, Number(word('page')) || 1);
	const { notices } = rollout.privacy;
	return {
		on,
		filter,
		page,
		perPage,
		count: rows.length,
		whole: rollout.people.length,
		rows: rows.slice((page - 1) * perPage, page * perPage),
		problems: kept.value.consentProblems,
		people: personOptions(rollout.people),
		person: word('person'),
		notices: notices.map((notice) => ({
			...notice,
			label: `${notice.version ?? notice.id} (${notice.language ?? 'any language'})`
		})),
		contents: contentsFor(rollout.privacy.regimes),
		notice: notices.find(({ id }) => id === word('notice')) ?? null
	};
};

export const actions: Actions = {
	record: async (event) => {
		const form = await event.request.formData();
		return change(event, form, 'record-consent', {
			people: chosenIn(form, 'person'),
			notice: textIn(form, 'notice') ?? '',
			decision: textIn(form, 'decision') ?? '',
			on: textIn(form, 'on') ?? '',
			method: textIn(form, 'method'),
			at: textIn(form, 'at'),
			signature: textIn(form, 'signature'),
			reference: textIn(form, 'reference'),
			witness: textIn(form, 'witness'),
			alternative: textIn(form, 'alternative')
		});
	},
	putNotice: putAction('notices', (form) => ({
		id: textIn(form, 'id') ?? '',
		version: textIn(form, 'version'),
		language: textIn(form, 'language'),
		publishedOn: textIn(form, 'publishedOn'),
		replaces: textIn(form, 'replaces'),
		needsFreshConsent: isTicked(form, 'needsFreshConsent') ? true : null,
		purpose: textIn(form, 'purpose'),
		term: textIn(form, 'term'),
		states: isTicked(form, 'states') ? chosenIn(form, 'states') : null
	})),
	removeNotice: removeAction('notices')
};
