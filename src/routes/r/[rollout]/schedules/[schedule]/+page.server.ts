import { error, redirect } from '@sveltejs/kit';
import check from '$lib/core/answers/check';
import { checks } from '$lib/core/checks';
import { nearestName } from '$lib/core/kernel/nearest';
import { change, rolloutOf } from '$lib/server/http/change';
import { putAction, removeAction } from '$lib/server/http/entry-actions';
import { textIn } from '$lib/server/http/forms';
import { ask } from '$lib/server/rollouts';
import { treatmentsIn, weekIn } from '$lib/server/views/schedule-form';
import { kindsTreated, scheduleRows } from '$lib/server/views/schedules';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params }) => {
	const open = rolloutOf(params);
	const { rollout } = open;
	const schedule = rollout.schedules.find(({ id }) => id === params.schedule);
	if (!schedule) {
		const near = nearestName(
			params.schedule,
			rollout.schedules.map(({ id }) => id)
		);
		const hint = near === undefined ? '' : ` Did you mean ${near}?`;
		error(404, `There is no schedule ${params.schedule} in this rollout.${hint}`);
	}
	const outcome = await ask(open, check, {});
	const findings = outcome.ok ? outcome.value.findings : [];
	return {
		schedule,
		row: scheduleRows(rollout, findings).find(({ id }) => id === schedule.id),
		kinds: kindsTreated(rollout, schedule),
		horizon: rollout.horizon,
		holidays: rollout.holidays.days.map(({ date, name, kind }) => ({ date, name: name ?? kind, kind })),
		coveredUntil: rollout.holidays.coveredUntil,
		findings: findings
			.filter(({ subject }) => subject['schedule'] === schedule.id)
			.map(({ code, severity, message, subject, dates }) => {
				const { title = code, mend = '' } = checks.get(code) ?? {};
				return { code, severity, message, dates, title, mend, at: subject['kind'] ?? subject['day'] ?? null };
			})
	};
};

const listOf = (url: URL) => url.pathname.replace(/\/[^/]*$/, '');

export const actions: Actions = {
	putSchedule: putAction(
		'schedules',
		(form) => {
			const holidays = treatmentsIn(form);
			return {
				id: textIn(form, 'id') ?? '',
				name: textIn(form, 'name'),
				from: textIn(form, 'from'),
				until: textIn(form, 'until'),
				week: weekIn(form),
				holidays: Object.keys(holidays).length === 0 ? null : holidays
			};
		},
		{ then: (url, id) => `${listOf(url)}/${encodeURIComponent(id)}` }
	),
	removeSchedule: removeAction('schedules', listOf),
	/** A copy under a new id, to go on from. */
	copySchedule: async (event) => {
		const form = await event.request.formData();
		const schedule = rolloutOf(event.params).document.schedules?.find(({ id }) => id === event.params.schedule);
		if (!schedule) redirect(303, listOf(event.url));
		const id = textIn(form, 'id') ?? '';
		const entry = { ...schedule, id, name: textIn(form, 'name') };
		const then = `${listOf(event.url)}/${encodeURIComponent(id)}`;
		return change(event, form, 'put-entry', { collection: 'schedules', entry }, then);
	}
};
