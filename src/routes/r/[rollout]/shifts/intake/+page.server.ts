import { redirect } from '@sveltejs/kit';
import { type Fault, fault } from '$lib/core/kernel/fault';
import { importTimes, takingTimesOver } from '$lib/core/roster/times/import-times';
import { change, refusedForm, rolloutOf } from '$lib/server/http/change';
import { textIn } from '$lib/server/http/forms';
import { listIn } from '$lib/server/http/roster-form';
import { type RosterDraft, dropRoster, findRoster, keepRoster, newRoster } from '$lib/server/roster-drafts';
import { timesView } from '$lib/server/views/times';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url }) => {
	const { rollout } = rolloutOf(params);
	const id = url.searchParams.get('draft');
	const draft = id === null ? undefined : findRoster(params.rollout, id);
	if (!draft) return { draft: null, times: null, faults: null, isGone: id !== null };
	const order = draft.said.map['dateOrder'];
	const about = { id: draft.id, fileName: draft.fileName, dateOrder: typeof order === 'string' ? order : '' };
	const read = importTimes(draft.bytes, rollout, draft.said.map);
	if (!read.ok) return { draft: about, times: null, faults: read.faults, isGone: false };
	return { draft: about, times: timesView(rollout, read.value), faults: null, isGone: false };
};

export const actions: Actions = {
	choose: async ({ request, params, url }) => {
		const { rollout } = rolloutOf(params);
		const form = await request.formData();
		const list = await listIn(form);
		if (!list) return refusal([fault(['roster'], null, 'a file, or a pasted range, first')], form, url);
		const read = importTimes(list.bytes, rollout);
		if (!read.ok) return refusal(read.faults, form, url);
		redirect(303, `${url.pathname}?draft=${keepRoster(newRoster(params.rollout, list.name, list.bytes)).id}`);
	},
	dates: async ({ request, params, url }) => {
		const form = await request.formData();
		const draft = draftOf(form, params.rollout, url);
		const dateOrder = textIn(form, 'dateOrder');
		keepRoster({ ...draft, said: { ...draft.said, map: dateOrder === null ? {} : { dateOrder } } });
		redirect(303, `${url.pathname}?draft=${draft.id}`);
	},
	apply: async (event) => {
		const { params, url } = event;
		const form = await event.request.formData();
		const draft = draftOf(form, params.rollout, url);
		const read = importTimes(draft.bytes, rolloutOf(params).rollout, draft.said.map);
		if (!read.ok) return refusal(read.faults, form, url);
		const taken = takingTimesOver(read.value);
		if (!taken)
			return refusal([fault(['draft'], draft.fileName, 'something to take over; nothing is new in it')], form, url);
		return change(event, form, 'all-of', taken, url.pathname.replace(/\/intake$/, ''));
	},
	cancel: async ({ request, url }) => {
		dropRoster(textIn(await request.formData(), 'draft') ?? '');
		redirect(303, url.pathname);
	}
};

function refusal(faults: readonly Fault[], form: FormData, url: URL) {
	return refusedForm({ ok: false, why: 'invalid', faults }, form, url);
}

function draftOf(form: FormData, rollout: string, url: URL): RosterDraft {
	const id = textIn(form, 'draft') ?? '';
	return findRoster(rollout, id) ?? redirect(303, `${url.pathname}?draft=${encodeURIComponent(id)}`);
}
