import { countries, holidayAreasOf, regionsOf } from '$lib/core/calendar/statutory-holidays';
import { change, rolloutOf } from '$lib/server/http/change';
import { putAction, removeAction } from '$lib/server/http/entry-actions';
import { chosenIn, isTicked, numberIn, textIn } from '$lib/server/http/forms';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url }) => {
	const { rollout } = rolloutOf(params);
	const { site, horizon, areas, doors, doorGroups, controllers, people } = rollout;
	const groupsByDoor = new Map(doors.map(({ id }) => [id, doorGroups.filter((group) => group.doors.includes(id))]));
	return {
		site,
		horizon,
		countries: countries().map(({ code, name }) => ({ value: code, label: name })),
		regions:
			site.country === null ? [] : regionsOf(site.country).map(({ code, name }) => ({ value: code, label: name })),
		holidayAreas:
			site.country === null || site.region === null
				? []
				: holidayAreasOf(site.country, site.region).map(({ code, name }) => ({ value: code, label: name })),
		timeZones: Intl.supportedValuesOf('timeZone'),
		areas: areas.map((area) => ({
			...area,
			doors: doors.filter(({ from, to }) => from === area.id || to === area.id).length,
			workplaces: people.filter(({ workAreas }) => workAreas.includes(area.id)).length
		})),
		doors: doors.map((door) => ({
			...door,
			groups: (groupsByDoor.get(door.id) ?? []).map(({ id, name }) => name ?? id)
		})),
		doorGroups,
		controllers: controllers.map(({ id, name }) => ({ value: id, label: name ?? id })),
		chosen: {
			area: areas.find(({ id }) => id === url.searchParams.get('area')) ?? null,
			door: doors.find(({ id }) => id === url.searchParams.get('door')) ?? null,
			group: doorGroups.find(({ id }) => id === url.searchParams.get('group')) ?? null
		}
	};
};

export const actions: Actions = {
	putArea: putAction('areas', (form) => ({
		id: textIn(form, 'id') ?? '',
		name: textIn(form, 'name'),
		outside: isTicked(form, 'outside') ? true : null
	})),
	removeArea: removeAction('areas'),
	putDoor: putAction('doors', (form) => ({
		id: textIn(form, 'id') ?? '',
		name: textIn(form, 'name'),
		from: textIn(form, 'from') ?? '',
		to: textIn(form, 'to') ?? '',
		exit: textIn(form, 'exit'),
		identify: textIn(form, 'identify'),
		controller: textIn(form, 'controller'),
		owner: textIn(form, 'owner')
	})),
	removeDoor: removeAction('doors'),
	putGroup: putAction('doorGroups', (form) => ({
		id: textIn(form, 'id') ?? '',
		name: textIn(form, 'name'),
		doors: chosenIn(form, 'doors')
	})),
	removeGroup: removeAction('doorGroups'),
	setSite: async (event) => {
		const form = await event.request.formData();
		const { document } = rolloutOf(event.params);
		const value = {
			...document.site,
			name: textIn(form, 'name') ?? '',
			timeZone: textIn(form, 'timeZone') ?? '',
			country: textIn(form, 'country'),
			region: textIn(form, 'region'),
			holidayArea: textIn(form, 'holidayArea'),
			arriveEarlyMinutes: numberIn(form, 'arriveEarlyMinutes') ?? 0
		};
		return change(event, form, 'set-part', { part: 'site', value });
	},
	setHorizon: async (event) => {
		const form = await event.request.formData();
		const value = { from: textIn(form, 'from') ?? '', until: textIn(form, 'until') ?? '' };
		return change(event, form, 'set-part', { part: 'horizon', value });
	}
};
