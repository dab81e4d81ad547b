import { redirect } from '@sveltejs/kit';
import { fault } from '$lib/core/kernel/fault';
import { withoutOutage } from '$lib/core/enrollment/replan/outage';
import type { Replan } from '$lib/core/enrollment/replan/replan';
import { todayAt } from '$lib/server/clock';
import { change, refusedForm, rolloutOf } from '$lib/server/http/change';
import { chosenIn, numberIn, textIn } from '$lib/server/http/forms';
import { longWorkOf, startAction, stopAction } from '$lib/server/http/job-actions';
import { acceptReplan } from '$lib/server/proposals';
import { personOptions } from '$lib/server/views/person-options';
import { lockEdits, momentIn, replanView, standingView, tellingView, wallClockAt } from '$lib/server/views/replan';
import type { Actions, PageServerLoad } from './$types';

const momentWanted = 'a date and a time, like 2027-01-11 08:30';

export const load: PageServerLoad = ({ params, url, depends }) => {
	depends('app:replan');
	const open = rolloutOf(params);
	const { rollout } = open;
	const { job, found } = longWorkOf<Replan>(open, 'replan', url);
	const asked = (found?.params as { from?: string } | undefined)?.from ?? null;
	const typed = url.searchParams.get('from');
	const from =
		momentIn(typed) ??
		(url.searchParams.has('job') ? momentIn(asked) : undefined) ??
		wallClockAt(rollout.site.timeZone);
	const [date, station] = [url.searchParams.get('date') || null, url.searchParams.get('station') || null];
	return {
		job,
		from,
		isMomentRefused: typed !== null && momentIn(typed) === undefined ? typed : null,
		today: todayAt(rollout.site.timeZone),
		standing: standingView(rollout, from),
		telling: tellingView(rollout, from, date, station),
		chosen: { date, station },
		stations: rollout.enrollment.stations.map(({ id, name, lanes }) => ({ value: id, label: name ?? id, lanes })),
		people: personOptions(rollout.people),
		found: found && { ...replanView(rollout, found.value), ...found, value: null, from: asked ?? '' }
	};
};

export const actions: Actions = {
	start: startAction('replan', (form) => ({ from: momentIn(textIn(form, 'from')) ?? textIn(form, 'from') })),
	stop: stopAction,
	accept: async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const outcome = acceptReplan(params.rollout, Number(textIn(form, 'number')), locals.actor);
		if (!outcome.ok) return refusedForm(outcome, form, url);
		redirect(303, `${url.pathname}?from=${textIn(form, 'from') ?? ''}#preview`);
	},
	visits: async (event) => {
		const form = await event.request.formData();
		const people = chosenIn(form, 'people');
		const byPerson = new Map(rolloutOf(event.params).rollout.enrollment.bookings.map((one) => [one.person, one]));
		const outcome = textIn(form, 'outcome');
		const edits = people.map((person) => {
			const booking = byPerson.get(person);
			const on = booking?.start.slice(0, 10);
			const entry = { person, ...(booking ? { station: booking.station } : {}), on, outcome };
			return { edit: 'put-entry', params: { collection: 'visits', entry } };
		});
		const what = `Visits recorded: ${people.length} ${outcome ?? ''}`;
		return change(event, form, 'all-of', { edits, what });
	},
	outage: async (event) => {
		const form = await event.request.formData();
		const [from, until] = [momentIn(textIn(form, 'begin')), momentIn(textIn(form, 'end'))];
		if (from === undefined || until === undefined || until <= from) {
			const name = from === undefined ? 'begin' : 'end';
			const expected = from !== undefined && until !== undefined ? 'a moment after the begin' : momentWanted;
			return refusedForm(
				{ ok: false, why: 'invalid', faults: [fault(['entry', name], textIn(form, name), expected)] },
				form,
				event.url
			);
		}
		const { document } = rolloutOf(event.params);
		const at = textIn(form, 'station') ?? '';
		const station = document.enrollment?.stations?.find(({ id }) => id === at);
		const entry = { ...station, open: withoutOutage((station?.open ?? []) as never, from, until) };
		const edits = [{ edit: 'put-entry', params: { collection: 'stations', entry, at } }];
		const what = `Station ${at} out of order from ${from.replace('T', ' ')} until ${until.replace('T', ' ')}`;
		return change(event, form, 'all-of', { edits, what });
	},
	lanes: async (event) => {
		const form = await event.request.formData();
		const at = textIn(form, 'station') ?? '';
		const station = rolloutOf(event.params).document.enrollment?.stations?.find(({ id }) => id === at);
		const entry = { ...station, lanes: numberIn(form, 'lanes') ?? '' };
		return change(event, form, 'put-entry', { collection: 'stations', entry, at });
	},
	absence: async (event) => {
		const form = await event.request.formData();
		const [person, from, until] = ['person', 'absentFrom', 'absentUntil'].map((name) => textIn(form, name));
		const entry = { person: person ?? '', ...(from ? { from } : {}), ...(until ? { until } : {}) };
		return change(event, form, 'put-entry', { collection: 'absences', entry });
	},
	tell: async (event) => {
		const form = await event.request.formData();
		return change(event, form, 'mark-told', { people: chosenIn(form, 'people'), on: textIn(form, 'on') });
	},
	untell: async (event) => {
		const form = await event.request.formData();
		return change(event, form, 'mark-told', { people: chosenIn(form, 'people'), on: null });
	},
	lock: async (event) => {
		const form = await event.request.formData();
		const edits = lockEdits(rolloutOf(event.params), chosenIn(form, 'people'), true);
		return change(event, form, 'all-of', { edits, what: `${edits.length} bookings locked` });
	},
	unlock: async (event) => {
		const form = await event.request.formData();
		const edits = lockEdits(rolloutOf(event.params), chosenIn(form, 'people'), false);
		return change(event, form, 'all-of', { edits, what: `${edits.length} bookings unlocked` });
	}
};
