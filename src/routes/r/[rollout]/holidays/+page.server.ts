import { isLocalDate } from '$lib/core/calendar/local-date';
import {
	countries,
	holidayAreasOf,
	holidaySource,
	placeKnown,
	placeName,
	regionsOf,
	statutoryHolidays
} from '$lib/core/calendar/statutory-holidays';
import { change, rolloutOf } from '$lib/server/http/change';
import { isTicked, textIn } from '$lib/server/http/forms';
import { wasIn } from '$lib/server/http/was';
import { coveredUntilOf, holidayIn, holidaysIn } from '$lib/server/views/holiday-form';
import { fillRange, holidayRows, statutoryRows, treatmentMatrix } from '$lib/server/views/holidays';
import { treatmentsIn } from '$lib/server/views/schedule-form';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url }) => {
	const { rollout } = rolloutOf(params);
	const { site, holidays, horizon } = rollout;
	const at = (name: string) => url.searchParams.get(name);
	const place = {
		country: at('country') ?? site.country,
		region: at('country') === null ? site.region : at('region') || null,
		holidayArea: at('country') === null ? site.holidayArea : at('holidayArea') || null
	};
	const range = fillRange(rollout, at('from'), at('until'), isLocalDate);
	const rows = holidayRows(rollout);
	const chosen =
		rows.find((row) => String(row.place) === at('place')) ?? rows.find(({ date }) => date === at('date')) ?? null;
	const options = (named: readonly { code: string; name: string }[]) =>
		named.map(({ code, name }) => ({ value: code, label: name }));
	return {
		rows,
		chosen: chosen && { ...chosen, was: JSON.stringify(holidays.days[chosen.place]) },
		newDate: chosen === null ? (at('date') ?? '') : '',
		coveredUntil: holidays.coveredUntil,
		horizon,
		matrix: treatmentMatrix(rollout),
		fill: {
			...place,
			...range,
			isKnown: placeKnown(place),
			placeName: placeName(place),
			days: statutoryRows(statutoryHolidays(place, range.from, range.until), rollout),
			countries: options(countries()),
			regions: place.country === null ? [] : options(regionsOf(place.country)),
			areas:
				place.country === null || place.region === null ? [] : options(holidayAreasOf(place.country, place.region)),
			source: holidaySource
		}
	};
};

export const actions: Actions = {
	putDay: async (event) => {
		const form = await event.request.formData();
		const { document } = rolloutOf(event.params);
		const at = textIn(form, 'at');
		const before = at === null ? undefined : document.holidays?.days?.[Number(at)];
		const entry = holidayIn(form, before);
		const was = at === null ? {} : { at: Number(at), ...wasIn(form) };
		return change(event, form, 'put-entry', { collection: 'holidays', entry, ...was }, `${event.url.pathname}#days`);
	},
	removeDay: async (event) => {
		const form = await event.request.formData();
		const params = { collection: 'holidays', at: Number(textIn(form, 'at')), ...wasIn(form) };
		return change(event, form, 'remove-entry', params, `${event.url.pathname}#days`);
	},
	setCovered: async (event) => {
		const form = await event.request.formData();
		return change(event, form, 'set-part', { part: 'holidays.coveredUntil', value: textIn(form, 'value') });
	},
	/** Adds the ticked official days; and says, where asked to, up to when the list is complete. */
	fill: async (event) => {
		const form = await event.request.formData();
		const { document } = rolloutOf(event.params);
		const days = holidaysIn(form);
		const until = isTicked(form, 'isComplete') ? coveredUntilOf(document, textIn(form, 'until')) : null;
		if (days.length === 0 && until !== null) {
			return change(event, form, 'set-part', { part: 'holidays.coveredUntil', value: until });
		}
		const params = { days, ...(until === null ? {} : { coveredUntil: until }) };
		return change(event, form, 'add-holidays', params);
	},
	setTreatments: async (event) => {
		const form = await event.request.formData();
		const at = textIn(form, 'at') ?? '';
		const schedule = rolloutOf(event.params).document.schedules?.find(({ id }) => id === at);
		const entry = { ...schedule, id: at, holidays: treatmentsIn(form) };
		return change(event, form, 'put-entry', { collection: 'schedules', entry, at }, `${event.url.pathname}#treatments`);
	}
};
