import { readStretch } from '$lib/core/calendar/stretch';
import { nameOf } from '$lib/core/document/names';
import { change, rolloutOf } from '$lib/server/http/change';
import { removeAction } from '$lib/server/http/entry-actions';
import { numberIn, textIn } from '$lib/server/http/forms';
import { stationTimeView } from '$lib/server/views/station-time';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	return { view: await stationTimeView(open, url), everybody: open.rollout.people.length };
};

const stageFields = [
	'identityMinutes',
	'noticeMinutes',
	'fingers',
	'attempts',
	'secondsPerAttempt',
	'doorTestMinutes'
] as const;

/** Minutes as typed, or from and to on the clock: `08:02-08:11` is 9. What is neither stays, so that the schema refuses it. */
function minutesIn(form: FormData): number | string | null {
	const typed = numberIn(form, 'minutes');
	const between = typeof typed === 'string' ? readStretch(typed.replaceAll(/\s/g, '')) : undefined;
	return between ? between.to - between.from : typed;
}

export const actions: Actions = {
	setStages: async (event) => {
		const form = await event.request.formData();
		const fields = stageFields.flatMap((name) => {
			const typed = numberIn(form, name);
			return typed === null ? [] : [[name, typed] as const];
		});
		return change(event, form, 'set-field', {
			collection: 'captureClasses',
			at: textIn(form, 'at') ?? '',
			path: ['stages'],
			value: Object.fromEntries(fields)
		});
	},
	removeStages: async (event) => {
		const form = await event.request.formData();
		const at = textIn(form, 'at') ?? '';
		return change(event, form, 'set-field', { collection: 'captureClasses', at, path: ['stages'], value: null });
	},
	plan: async (event) => {
		const form = await event.request.formData();
		const { rollout } = rolloutOf(event.params);
		const [at, minutes] = [textIn(form, 'at') ?? '', numberIn(form, 'minutes') ?? ''];
		return change(event, form, 'all-of', {
			what: `${nameOf(rollout.enrollment.captureClasses, at)}: planned with ${minutes} minutes, as estimated`,
			edits: [{ edit: 'set-field', params: { collection: 'captureClasses', at, path: ['minutes'], value: minutes } }]
		});
	},
	assume: async (event) => {
		const form = await event.request.formData();
		const { assumptions } = rolloutOf(event.params).rollout.enrollment;
		const name = textIn(form, 'name') ?? '';
		return change(event, form, 'set-part', {
			part: 'enrollment.assumptions',
			value: { ...assumptions, [name]: numberIn(form, 'share') ?? '' }
		});
	},
	putVisit: async (event) => {
		const form = await event.request.formData();
		const at = textIn(form, 'at');
		const outcome = textIn(form, 'outcome') ?? '';
		const [station, minutes] = [textIn(form, 'station'), outcome === 'no-show' ? null : minutesIn(form)];
		const entry = {
			person: textIn(form, 'person') ?? '',
			...(station === null ? {} : { station }),
			on: textIn(form, 'on') ?? '',
			...(minutes === null ? {} : { minutes }),
			outcome
		};
		return change(
			event,
			form,
			'put-entry',
			{ collection: 'visits', entry, at: at === null ? null : Number(at) },
			`${event.url.pathname}#visits`
		);
	},
	removeVisit: removeAction('visits', (url) => `${url.pathname}#visits`)
};
