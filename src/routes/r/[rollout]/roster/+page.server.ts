import { redirect } from '@sveltejs/kit';
import { isLocalDate } from '$lib/core/calendar/local-date';
import { type Fault, fault } from '$lib/core/kernel/fault';
import { columnFields } from '$lib/core/roster/fields';
import { todayAt } from '$lib/server/clock';
import { refusedForm, rolloutOf } from '$lib/server/http/change';
import { isTicked, textIn } from '$lib/server/http/forms';
import { correctionsIn, lastDayIn, listIn, mapIn, withChoices, withPairsDecided } from '$lib/server/http/roster-form';
import { isLong, previewOf, readingOf, stopReading } from '$lib/server/jobs/roster-readings';
import { type RosterDraft, dropRoster, findRoster, keepRoster } from '$lib/server/roster-drafts';
import { chosenRoster, rememberColumns, sayOfRoster, takeRosterOver } from '$lib/server/roster-intake';
import type { SaidOfList } from '$lib/server/roster-preview';
import { isHalfMissing, previewView } from '$lib/server/views/roster';
import type { Actions, PageServerLoad, RequestEvent } from './$types';

export const load: PageServerLoad = async ({ params, url, depends }) => {
	depends('app:roster');
	const open = rolloutOf(params);
	const id = url.searchParams.get('draft');
	const draft = id === null ? undefined : findRoster(params.rollout, id);
	const today = todayAt(open.rollout.site.timeZone);
	const none = { draft: null, preview: null, reading: null, faults: null };
	const shared = { fields: columnFields, today, isGone: id !== null && !draft };
	if (!draft) return { ...shared, ...none };
	const { fileName, said, readAs } = draft;
	const about = { id: draft.id, fileName, said, readAs };
	const view = await readingOf(open, draft, today);
	if (view.state === 'running') return { ...shared, ...none, draft: about, reading: view.progress };
	if (view.state === 'stopped') return { ...shared, ...none, isGone: true };
	if (!view.result.ok) return { ...shared, ...none, draft: about, faults: view.result.faults };
	return { ...shared, ...none, draft: about, preview: previewView(open.rollout, view.result.value, said) };
};

export const actions: Actions = {
	choose: async ({ request, params, url }) => {
		const open = rolloutOf(params);
		const form = await request.formData();
		const list = await listIn(form);
		if (!list)
			return refusal([fault(['roster'], null, 'a list of people: choose a file, or paste a range, first')], form, url);
		const draft = chosenRoster(open, list.name, list.bytes);
		if (!isLong(open, list.bytes)) {
			const read = await sayOfRoster(open, draft, draft.said);
			if (!read.ok) return refusal(read.faults, form, url);
		}
		redirect(303, `${url.pathname}?draft=${keepRoster(draft).id}`);
	},
	map: (event) =>
		say(
			event,
			({ said }, form) => ({ ...said, map: mapIn(form) }),
			(draft) => rememberColumns(draft, event.locals.actor)
		),
	mend: (event) =>
		say(event, ({ said }, form) => ({
			...said,
			corrections: form.has('takeBack') ? [] : [...said.corrections, ...correctionsIn(form)]
		})),
	pairs: (event) => say(event, ({ said }, form) => withPairsDecided(said, form)),
	takeBackPairs: (event) =>
		say(event, ({ said }) => ({
			...said,
			corrections: said.corrections.filter((one) => !('isLeftOut' in one)),
			renumber: [],
			apart: []
		})),
	decide: async (event) => {
		const open = rolloutOf(event.params);
		return say(event, async (draft, form) => {
			const read = await previewOf(open, draft, todayAt(open.rollout.site.timeZone));
			return withChoices(draft.said, form, read.ok ? read.value.conflicts : []);
		});
	},
	apply: async ({ request, params, url, locals }) => {
		const open = rolloutOf(params);
		const form = await request.formData();
		const draft = draftOf(form, params.rollout, url);
		const lastDay = lastDayIn(form);
		if (lastDay === null || (lastDay !== undefined && !isLocalDate(lastDay)))
			return refusal([fault(['leavesOn'], lastDay, 'the last day of those who left, like 2027-01-04')], form, url);
		const read = await previewOf(open, draft, todayAt(open.rollout.site.timeZone));
		if (read.ok && isHalfMissing(open.rollout, read.value.undisputed) && !isTicked(form, 'whole')) {
			const expected = 'a tick that this is the whole list, as half of the people or more are missing in it';
			return refusal([fault(['whole'], null, expected)], form, url);
		}
		const outcome = await takeRosterOver(open, draft, lastDay, locals.actor);
		if (!outcome.ok) return refusedForm(outcome, form, url);
		dropRoster(draft.id);
		await stopReading(draft.id);
		redirect(303, url.pathname.replace(/roster$/, 'people'));
	},
	cancel: async ({ request, url }) => {
		const id = textIn(await request.formData(), 'draft') ?? '';
		dropRoster(id);
		await stopReading(id);
		redirect(303, url.pathname);
	}
};

/** Reads the list again with something more that is said of it; refused, and not kept, where it cannot be read so. */
async function say(
	{ request, params, url }: RequestEvent,
	next: (draft: RosterDraft, form: FormData) => SaidOfList | Promise<SaidOfList>,
	then: (draft: RosterDraft) => void = () => undefined
) {
	const open = rolloutOf(params);
	const form = await request.formData();
	const draft = draftOf(form, params.rollout, url);
	const said = await sayOfRoster(open, draft, await next(draft, form));
	if (!said.ok) return refusal(said.faults, form, url);
	then(said.value);
	redirect(303, `${url.pathname}?draft=${draft.id}`);
}

function refusal(faults: readonly Fault[], form: FormData, url: URL) {
	return refusedForm({ ok: false, why: 'invalid', faults }, form, url);
}

function draftOf(form: FormData, rollout: string, url: URL): RosterDraft {
	const id = textIn(form, 'draft') ?? '';
	return findRoster(rollout, id) ?? redirect(303, `${url.pathname}?draft=${encodeURIComponent(id)}`);
}
