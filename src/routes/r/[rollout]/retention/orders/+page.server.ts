import { todayAt } from '$lib/server/clock';
import { change, rolloutOf } from '$lib/server/http/change';
import { chosenIn, isTicked, linesIn, numberIn, textIn } from '$lib/server/http/forms';
import { orderLines, peopleToErase, placeLines, workAt } from '$lib/server/views/erasure-orders';
import { personOptions } from '$lib/server/views/person-options';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url }) => {
	const { rollout } = rolloutOf(params);
	const today = todayAt(rollout.site.timeZone);
	const lines = orderLines(rollout, today);
	const asked = (name: string) => url.searchParams.get(name);
	const places = placeLines(rollout, lines);
	const place = places.find(({ id }) => id === asked('place')) ?? null;
	const toErase = peopleToErase(rollout, today);
	return {
		today,
		orders: lines.map(({ steps, ...line }) => ({
			...line,
			left: steps.filter(({ state }) => state !== 'erased').map(({ name, state }) => ({ name, state }))
		})),
		chosen: lines.find(({ id }) => id === asked('order')) ?? null,
		place: place && { ...place, work: workAt(lines, place.id) },
		places,
		edited: places.find(({ id }) => id === asked('edit')) ?? null,
		needsSecond: rollout.privacy.erasureRules.secondPerson,
		counts: { due: toErase.due.length, leavers: toErase.leavers.length },
		people: personOptions(rollout.people.filter(({ id }) => toErase.all.includes(id))),
		person: asked('person') ?? ''
	};
};

export const actions: Actions = {
	open: async (event) => {
		const form = await event.request.formData();
		const { rollout } = rolloutOf(event.params);
		const toErase = peopleToErase(rollout, todayAt(rollout.site.timeZone));
		const which = textIn(form, 'which');
		const people = which === 'due' ? toErase.due : which === 'leavers' ? toErase.leavers : chosenIn(form, 'person');
		return change(
			event,
			form,
			'open-erasure',
			{
				people,
				on: textIn(form, 'on') ?? '',
				by: textIn(form, 'by'),
				reason: textIn(form, 'reason'),
				places: linesIn(form, 'places')
			},
			event.url.pathname
		);
	},
	confirm: async (event) => {
		const form = await event.request.formData();
		return change(event, form, 'confirm-erasure', {
			orders: chosenIn(form, 'orders'),
			places: chosenIn(form, 'places'),
			on: textIn(form, 'on') ?? '',
			by: textIn(form, 'by') ?? '',
			evidence: textIn(form, 'evidence') ?? ''
		});
	},
	second: async (event) => {
		const form = await event.request.formData();
		return change(event, form, 'second-erasure', {
			orders: chosenIn(form, 'orders'),
			places: chosenIn(form, 'places'),
			decision: textIn(form, 'decision') ?? '',
			on: textIn(form, 'on') ?? '',
			by: textIn(form, 'by') ?? ''
		});
	},
	putPlace: async (event) => {
		const form = await event.request.formData();
		const { rollout } = rolloutOf(event.params);
		const id = textIn(form, 'at') ?? textIn(form, 'id') ?? '';
		const isTold = rollout.privacy.places.some((place) => place.id === id);
		const fields = {
			id: textIn(form, 'id') ?? id,
			name: textIn(form, 'name'),
			kind: textIn(form, 'kind'),
			copies: linesIn(form, 'copies'),
			keepsDays: numberIn(form, 'keepsDays'),
			expiresOn: textIn(form, 'expiresOn'),
			offlineSince: textIn(form, 'offlineSince')
		};
		const entry = Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null));
		const params = { collection: 'templatePlaces', entry, at: isTold ? id : null };
		return change(event, form, 'put-entry', params, `${event.url.pathname}#places`);
	},
	setRules: async (event) => {
		const form = await event.request.formData();
		const value = { secondPerson: isTicked(form, 'secondPerson') };
		return change(event, form, 'set-part', { part: 'privacy.erasureRules', value });
	}
};
