import { todayAt } from '$lib/server/clock';
import { isLocalDate, localDate } from '$lib/core/calendar/local-date';
import { change, rolloutOf } from '$lib/server/http/change';
import { putAction, removeAction } from '$lib/server/http/entry-actions';
import { numberIn, textIn } from '$lib/server/http/forms';
import { personOptions } from '$lib/server/views/person-options';
import { nextRequestId, requestRows } from '$lib/server/views/requests';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url }) => {
	const { rollout } = rolloutOf(params);
	const asked = url.searchParams.get('on') ?? '';
	const today = todayAt(rollout.site.timeZone);
	const on = isLocalDate(asked) ? localDate(asked) : today;
	const rows = requestRows(rollout, on);
	return {
		on,
		today,
		isAskedWrong: asked !== '' && !isLocalDate(asked),
		rows,
		chosen: rows.find(({ id }) => id === url.searchParams.get('request')) ?? null,
		person: url.searchParams.get('person') ?? '',
		nextId: nextRequestId(rollout),
		people: personOptions(rollout.people),
		answerWithinDays: rollout.privacy.office?.answerWithinDays ?? null
	};
};

export const actions: Actions = {
	putRequest: putAction(
		'requests',
		(form) => ({
			id: textIn(form, 'id') ?? '',
			person: textIn(form, 'person') ?? '',
			kind: textIn(form, 'kind') ?? '',
			receivedOn: textIn(form, 'receivedOn') ?? '',
			channel: textIn(form, 'channel'),
			identityCheckedOn: textIn(form, 'identityCheckedOn'),
			identityCheckedHow: textIn(form, 'identityCheckedHow'),
			extendedOn: textIn(form, 'extendedOn'),
			extensionReason: textIn(form, 'extensionReason'),
			answeredOn: textIn(form, 'answeredOn'),
			answer: textIn(form, 'answer')
		}),
		{ then: (url, id) => `${url.pathname}?request=${encodeURIComponent(id)}#request` }
	),
	removeRequest: removeAction('requests'),
	setDays: async (event) => {
		const form = await event.request.formData();
		const { document } = rolloutOf(event.params);
		const value = { ...document.privacy?.office, answerWithinDays: numberIn(form, 'answerWithinDays') };
		return change(event, form, 'set-part', { part: 'privacy.office', value });
	}
};
