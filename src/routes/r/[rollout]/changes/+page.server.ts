import { error, redirect } from '@sveltejs/kit';
import { shownAt } from '$lib/server/clock';
import { refusedForm, rolloutOf } from '$lib/server/http/change';
import { textIn } from '$lib/server/http/forms';
import {
	getChange,
	isClockBehind,
	issueRollout,
	listChanges,
	listIssues,
	recordHead,
	redo,
	undo,
	verifyRollout,
	withdrawIssue
} from '$lib/server/rollouts';
import type { Actions, PageServerLoad } from './$types';

const perPage = 40;

export const load: PageServerLoad = ({ params, url }) => {
	const open = rolloutOf(params);
	const { timeZone } = open.rollout.site;
	const before = Number(url.searchParams.get('before')) || undefined;
	const changes = listChanges(open.id, before, perPage + 1);
	if (!changes.ok) error(404, changes.faults[0]?.message ?? '');
	const number = Number(url.searchParams.get('change')) || undefined;
	const detail = number === undefined ? undefined : getChange(open.id, number);
	const issues = listIssues(open.id);
	const printed = url.searchParams.get('head') ?? '';
	const verified = url.searchParams.has('head') ? verifyRollout(open.id, printed) : undefined;
	return {
		record: {
			head: recordHead(open.id) ?? null,
			printed,
			verified: verified?.ok
				? {
						...verified.value,
						clockSetBack: verified.value.clockSetBack.map(({ change, at, previousAt }) => ({
							change,
							at: shownAt(timeZone, at),
							previousAt: shownAt(timeZone, previousAt)
						}))
					}
				: null,
			fault: verified?.ok === false ? (verified.faults[0]?.expected ?? null) : null,
			isClockBehind: isClockBehind(open)
		},
		issues: issues.ok ? issues.value.map((row) => ({ ...row, shownAt: shownAt(timeZone, row.at) })) : [],
		changes: changes.value.slice(0, perPage).map((row) => ({ ...row, shownAt: shownAt(timeZone, row.at) })),
		next: changes.value.length > perPage ? (changes.value[perPage - 1]?.number ?? null) : null,
		detail: detail?.ok
			? {
					number: detail.value.number,
					what: detail.value.what,
					touched: JSON.stringify(detail.value.touched, null, 2)
				}
			: null
	};
};

function back(form: FormData, fallback: string): string {
	const to = textIn(form, 'back') ?? fallback;
	return to.startsWith('/r/') ? to : fallback;
}

export const actions: Actions = {
	issue: async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const outcome = issueRollout(params.rollout, textIn(form, 'note') ?? '', locals.actor);
		return outcome.ok ? redirect(303, `${url.pathname}#issue`) : refusedForm(outcome, form, url);
	},
	withdraw: async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const outcome = withdrawIssue(params.rollout, textIn(form, 'letter') ?? '', locals.actor);
		return outcome.ok ? redirect(303, `${url.pathname}#issue`) : refusedForm(outcome, form, url);
	},
	undo: async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const number = Number(textIn(form, 'number')) || undefined;
		const outcome = undo(params.rollout, locals.actor, number);
		return outcome.ok ? redirect(303, back(form, url.pathname)) : refusedForm(outcome, form, url);
	},
	redo: async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const outcome = redo(params.rollout, locals.actor);
		return outcome.ok ? redirect(303, back(form, url.pathname)) : refusedForm(outcome, form, url);
	}
};
