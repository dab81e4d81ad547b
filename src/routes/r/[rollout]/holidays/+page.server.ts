import { redirect } from '@sveltejs/kit';
import check from '$lib/core/answers/check';
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
import { todayAt } from '$lib/server/clock';
import { change, refusedForm, rolloutOf } from '$lib/server/http/change';
import { isTicked, textIn } from '$lib/server/http/forms';
import { wasIn } from '$lib/server/http/was';
import { type OpenRollout, ask, editRollout, getChange } from '$lib/server/rollouts';
import { coveredUntilOf, holidayIn, holidaysIn } from '$lib/server/views/holiday-form';
import { holidayYear } from '$lib/server/views/holiday-year';
import { fillRange, holidayRows, statutoryRows, treatmentMatrix } from '$lib/server/views/holidays';
import { treatmentsIn } from '$lib/server/views/schedule-form';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	const { rollout, document } = open;
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
		matrix: treatmentMatrix(rollout, document),
		year: holidayYear(rollout, at('year'), todayAt(site.timeZone)),
		treated: { schedule: at('schedule'), kind: at('kind'), isEditing: at('edit') !== null },
		saved: await savedChange(open, at('saved'), at('schedule')),
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
	/** Decides one kind of holiday of one schedule, in place: one change, after which the sheet tells what was found anew. */
	treat: async (event) => {
		const form = await event.request.formData();
		const [at, typed] = [textIn(form, 'at') ?? '', form.get('kind.0')];
		const kind = typeof typed === 'string' ? typed : '';
		const schedule = rolloutOf(event.params).document.schedules?.find(({ id }) => id === at);
		const others = Object.entries(schedule?.holidays ?? {}).filter(([name]) => name !== kind);
		const treated = Object.values(treatmentsIn(form)).map((treatment) => [kind, treatment] as const);
		const entry = { ...schedule, id: at, holidays: Object.fromEntries([...others, ...treated]) };
		const params = { collection: 'schedules', entry, at, ...wasIn(form) };
		const outcome = editRollout(event.params.rollout, 'put-entry', params, event.locals.actor);
		if (!outcome.ok) return refusedForm(outcome, form, event.url);
		const shown = new URLSearchParams({ schedule: at, kind });
		const year = event.url.searchParams.get('year');
		if (year !== null) shown.set('year', year);
		if (outcome.value.change) shown.set('saved', String(outcome.value.change.number));
		redirect(303, `${event.url.pathname}?${shown.toString()}#treatments`);
	}
};

/** What was saved a moment ago, as long as it is the latest change, with what is found about the schedule now. */
async function savedChange(open: OpenRollout, number: string | null, schedule: string | null) {
	if (number === null || Number(number) !== open.lastChange) return null;
	const made = getChange(open.id, open.lastChange);
	const found = await ask(open, check, {});
	if (!made.ok || !found.ok) return null;
	const about = found.value.findings.filter(({ subject }) => subject['schedule'] === schedule);
	return {
		number: open.lastChange,
		what: made.value.what,
		findings: about.length,
		messages: about.slice(0, 3).map(({ message }) => message)
	};
}
