import check from '$lib/core/answers/check';
import { ask } from '$lib/server/rollouts';
import { change, rolloutOf } from '$lib/server/http/change';
import { textIn } from '$lib/server/http/forms';
import { scheduleRows } from '$lib/server/views/schedules';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params }) => {
	const open = rolloutOf(params);
	const found = await ask(open, check, {});
	return { schedules: scheduleRows(open.rollout, found.ok ? found.value.findings : []) };
};

export const actions: Actions = {
	/** A new schedule, closed all week or with the hours of another; the browser is sent to its sheet. */
	addSchedule: async (event) => {
		const form = await event.request.formData();
		const { document } = rolloutOf(event.params);
		const like = document.schedules?.find(({ id }) => id === textIn(form, 'like'));
		const id = textIn(form, 'id') ?? '';
		const name = textIn(form, 'name');
		const entry = {
			id,
			...(name === null ? {} : { name }),
			...(like?.week ? { week: like.week } : {}),
			...(like?.holidays ? { holidays: like.holidays } : {})
		};
		const then = `/r/${encodeURIComponent(event.params.rollout)}/schedules/${encodeURIComponent(id)}`;
		return change(event, form, 'put-entry', { collection: 'schedules', entry }, then);
	}
};
