import { redirect } from '@sveltejs/kit';
import { nameOf } from '$lib/core/document/names';
import { shownAt, todayAt } from '$lib/server/clock';
import { destroyCopy, listCopies } from '$lib/server/copies';
import { change, refusedForm, rolloutOf } from '$lib/server/http/change';
import { numberIn, textIn } from '$lib/server/http/forms';
import { previewRemoval, removalOf, removePeople } from '$lib/server/remove-people';
import { personOptions } from '$lib/server/views/person-options';
import type { Actions, PageServerLoad } from './$types';

const mostShown = 200;

export const load: PageServerLoad = ({ params, url }) => {
	const open = rolloutOf(params);
	const { rollout } = open;
	const { timeZone } = rollout.site;
	const only = url.searchParams.get('person') ?? '';
	const lines = removalOf(open);
	const due = lines.filter(({ isDue }) => isDue);
	const preview = previewRemoval(open, only === '' ? undefined : [only]);
	const free = new Set(lines.filter(({ stays }) => stays.length === 0).map(({ person }) => person));
	const named = (line: (typeof lines)[number]) => ({ ...line, name: nameOf(rollout.people, line.person) });
	return {
		today: todayAt(timeZone),
		days: rollout.privacy.office?.removePeopleAfterDays ?? null,
		whole: rollout.people.length,
		nextOn: lines.flatMap(({ removeOn, isDue }) => (removeOn === null || isDue ? [] : [removeOn])).sort()[0] ?? null,
		due: due.slice(0, mostShown).map(named),
		dueCount: due.length,
		freeCount: due.filter(({ stays }) => stays.length === 0).length,
		person: only,
		preview: { ...preview, people: preview.people.slice(0, mostShown).map(named), count: preview.people.length },
		options: personOptions(rollout.people.filter(({ id }) => free.has(id))),
		copies: listCopies(open.id).map((copy) => ({ ...copy, shownAt: shownAt(timeZone, copy.at) })),
		done: Number(url.searchParams.get('removed')) || null,
		isWiped: url.searchParams.get('wiped') !== 'later'
	};
};

export const actions: Actions = {
	setDays: async (event) => {
		const form = await event.request.formData();
		const { document } = rolloutOf(event.params);
		const value = { ...document.privacy?.office, removePeopleAfterDays: numberIn(form, 'removePeopleAfterDays') };
		return change(event, form, 'set-part', { part: 'privacy.office', value });
	},
	remove: async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const person = textIn(form, 'person');
		const outcome = await removePeople(
			params.rollout,
			textIn(form, 'name') ?? '',
			locals.actor,
			person === null ? undefined : [person]
		);
		if (!outcome.ok) return refusedForm(outcome, form, url);
		const { people, isWiped } = outcome.value;
		redirect(303, `${url.pathname}?removed=${people}${isWiped ? '' : '&wiped=later'}`);
	},
	destroy: async ({ request, params, url }) => {
		const form = await request.formData();
		const outcome = destroyCopy(params.rollout, Number(textIn(form, 'number')), textIn(form, 'on') ?? '');
		return outcome.ok ? redirect(303, `${url.pathname}#copies`) : refusedForm(outcome, form, url);
	}
};
