import { error, redirect } from '@sveltejs/kit';
import mend from '$lib/core/answers/mend';
import { fault } from '$lib/core/kernel/fault';
import { refusedForm, rolloutOf } from '$lib/server/http/change';
import { textIn } from '$lib/server/http/forms';
import { type Outcome, refuse } from '$lib/server/outcome';
import { type Changed, type OpenRollout, ask, editRollout, getChange } from '$lib/server/rollouts';
import { findingTitle, mendQuestion, mendView } from '$lib/server/views/mends';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	const question = mendQuestion(url);
	const outcome = await ask(open, mend, question);
	if (!outcome.ok) error(404, outcome.faults[0]?.message ?? 'There is no such finding.');
	const { finding, mends, tried, clearing, whyNone } = outcome.value;
	return {
		title: findingTitle(question['code'] ?? ''),
		finding: finding && { message: finding.message, dates: finding.dates },
		mends: mends.map((one) => mendView(open.rollout, one)),
		tried,
		clearing,
		whyNone,
		revision: open.revision,
		done: doneChange(open.id, Number(url.searchParams.get('done')) || undefined)
	};
};

/** The change of a mend that was applied just now, as long as it is in effect. */
function doneChange(id: string, number: number | undefined) {
	const change = number === undefined ? undefined : getChange(id, number);
	return change?.ok && change.value.undoneBy === null ? { number: change.value.number, what: change.value.what } : null;
}

const movedOn =
	'the state of the rollout that you looked at; it was changed since. Below are the ways to mend as it stands now';

async function apply(open: OpenRollout, form: FormData, url: URL, who: string): Promise<Outcome<Changed>> {
	const revision = textIn(form, 'revision');
	if (revision !== open.revision) return refuse('conflict', fault(['revision'], revision, movedOn));
	const outcome = await ask(open, mend, mendQuestion(url));
	if (!outcome.ok) return outcome;
	const chosen = outcome.value.mends.find(({ id }) => id === textIn(form, 'mend'));
	if (!chosen) return refuse('not-found', fault(['mend'], textIn(form, 'mend'), 'one of the ways to mend shown'));
	return editRollout(open.id, 'all-of', { edits: chosen.edits, what: chosen.does }, who, revision);
}

export const actions: Actions = {
	apply: async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const outcome = await apply(rolloutOf(params), form, url, locals.actor);
		if (!outcome.ok) return refusedForm(outcome, form, url);
		const query = new URLSearchParams(mendQuestion(url));
		if (outcome.value.change) query.set('done', String(outcome.value.change.number));
		redirect(303, `${url.pathname}?${query.toString()}`);
	}
};
