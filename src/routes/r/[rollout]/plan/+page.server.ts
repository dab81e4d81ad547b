import { redirect } from '@sveltejs/kit';
import { sheetHref } from '$lib/components/sheet/sheets';
import type { EnrollmentPlan } from '$lib/core/enrollment/plan';
import { putAction, removeAction } from '$lib/server/http/entry-actions';
import { change, refusedForm, rolloutOf } from '$lib/server/http/change';
import { isTicked, numberIn, textIn } from '$lib/server/http/forms';
import { getJob, listJobs, startJob, stopJob } from '$lib/server/jobs/jobs';
import { adoptProposal, discardProposal, getProposal, listProposals } from '$lib/server/proposals';
import { shownAt } from '$lib/server/clock';
import { bookingsView, loadsView, placementView, proposalView, sessionDates } from '$lib/server/views/plan';
import { dayDesk } from '$lib/server/views/day-desk';
import { formBooking, lockOf, moveOf } from '$lib/server/views/booking-move';
import { isRemedyFresh, remedyIn } from '$lib/server/views/remedy';
import { personOptions } from '$lib/server/views/person-options';
import type { Actions, PageServerLoad } from './$types';

const costNames = ['stationHour', 'installerDay', 'personAwayHour', 'movedBooking'] as const;

const isOver = new Set(['done', 'refused', 'stopped', 'failed']);

export const load: PageServerLoad = ({ params, url, depends }) => {
	depends('app:plan');
	const open = rolloutOf(params);
	const { rollout } = open;
	const jobs = listJobs(open.id).filter(({ answer }) => answer === 'plan');
	const asked = url.searchParams.get('job');
	const named = asked === null ? undefined : getJob(open.id, asked);
	const job = (named?.ok ? named.value : jobs.find(({ state }) => !isOver.has(state))) ?? null;
	const proposals = listProposals(open.id).filter(({ answer }) => answer === 'plan');
	const number = Number(url.searchParams.get('proposal') ?? job?.proposal ?? proposals.at(0)?.number) || null;
	const proposal = number === null ? undefined : getProposal(open.id, number);
	const dates = sessionDates(rollout);
	const view = bookingsView(rollout);
	const booking = view.bookings.find(({ place }) => String(place) === url.searchParams.get('booking')) ?? null;
	const wanted = url.searchParams.get('date') ?? booking?.sessionDate;
	const date = dates.find((one) => one === wanted) ?? dates.at(0) ?? null;
	return {
		job,
		proposals: proposals.map((one) => ({
			...one,
			shownAt: shownAt(rollout.site.timeZone, one.at),
			isOutdated: one.revision !== open.revision
		})),
		proposal: proposal?.ok
			? {
					...proposalView(rollout, proposal.value.value as EnrollmentPlan),
					number: proposal.value.number,
					isStoppedEarly: proposal.value.isStoppedEarly,
					seconds: proposal.value.seconds,
					adoptedBy: proposal.value.adoptedBy,
					canApply: isRemedyFresh(open, proposal.value),
					isOutdated: proposal.value.revision !== open.revision
				}
			: null,
		costs: rollout.enrollment.costs,
		dates,
		date,
		counts: view.counts,
		unbooked: view.unbooked,
		sessions: view.sessions.length,
		desk: dayDesk(rollout, date ?? rollout.horizon.from, view.bookings, view.unbooked, dates),
		wrong: view.bookings.filter(({ problems }) => problems.length > 0).slice(0, 50),
		booking,
		placement: booking && placementView(rollout, booking),
		stations: rollout.enrollment.stations.map(({ id, name }) => ({ id, name: name ?? id })),
		loads: loadsView(rollout),
		people: personOptions(rollout.people)
	};
};

export const actions: Actions = {
	start: async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const asked = { seconds: numberIn(form, 'seconds') ?? 10, seed: numberIn(form, 'seed') ?? 1 };
		const outcome = await startJob(params.rollout, 'plan', asked, locals.actor);
		if (!outcome.ok) return refusedForm(outcome, form, url);
		redirect(303, `${url.pathname}?job=${outcome.value.id}`);
	},
	stop: async ({ request, params, url }) => {
		const form = await request.formData();
		const outcome = stopJob(params.rollout, textIn(form, 'job') ?? '');
		if (!outcome.ok) return refusedForm(outcome, form, url);
		redirect(303, `${url.pathname}?job=${outcome.value.id}`);
	},
	adopt: async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const number = Number(textIn(form, 'number'));
		const outcome = adoptProposal(params.rollout, number, locals.actor, isTicked(form, 'outdated'));
		return outcome.ok ? redirect(303, `${url.pathname}#sessions`) : refusedForm(outcome, form, url);
	},
	discard: async ({ request, params, url }) => {
		const form = await request.formData();
		const outcome = discardProposal(params.rollout, Number(textIn(form, 'number')));
		return outcome.ok ? redirect(303, url.pathname) : refusedForm(outcome, form, url);
	},
	tryRemedy: async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const remedy = remedyIn(rolloutOf(params), form);
		if (!remedy.ok) return refusedForm(remedy, form, url);
		const asked = { edits: JSON.stringify(remedy.value.edits), seconds: 10, seed: 1 };
		const outcome = await startJob(params.rollout, 'what-if', asked, locals.actor);
		if (!outcome.ok) return refusedForm(outcome, form, url);
		redirect(303, sheetHref(params.rollout, `what-if?job=${outcome.value.id}`));
	},
	applyRemedy: async (event) => {
		const form = await event.request.formData();
		const remedy = remedyIn(rolloutOf(event.params), form);
		if (!remedy.ok) return refusedForm(remedy, form, event.url);
		return change(event, form, 'all-of', { edits: remedy.value.edits, what: `Remedy: ${remedy.value.does}` });
	},
	costs: async (event) => {
		const form = await event.request.formData();
		const value = Object.fromEntries(costNames.map((name) => [name, numberIn(form, name) ?? 0]));
		return change(event, form, 'set-part', { part: 'enrollment.costs', value });
	},
	putBooking: putAction(
		'bookings',
		(form, before) =>
			formBooking(before, {
				person: textIn(form, 'person') ?? '',
				station: textIn(form, 'station') ?? '',
				lane: numberIn(form, 'lane'),
				start: `${textIn(form, 'date') ?? ''}T${textIn(form, 'time') ?? ''}`,
				minutes: numberIn(form, 'minutes') ?? '',
				fixed: isTicked(form, 'fixed') ? true : null
			}),
		{ then: (url) => `${url.pathname}${keepDate(url)}#sessions` }
	),
	moveBooking: async (event) => {
		const form = await event.request.formData();
		const text = (name: string) => textIn(form, name) ?? '';
		const move = { person: text('person'), station: text('station'), lane: Number(text('lane')), start: text('start') };
		const asked = moveOf(rolloutOf(event.params), move);
		if (!asked.ok) return refusedForm(asked, form, event.url);
		return change(event, form, 'put-entry', asked.value);
	},
	lockBooking: async (event) => {
		const form = await event.request.formData();
		const asked = lockOf(rolloutOf(event.params), textIn(form, 'person') ?? '', isTicked(form, 'fixed'));
		if (!asked.ok) return refusedForm(asked, form, event.url);
		return change(event, form, 'put-entry', asked.value);
	},
	removeBooking: removeAction('bookings', (url) => `${url.pathname}${keepDate(url)}#sessions`),
	clear: async (event) => {
		const form = await event.request.formData();
		const kept = rolloutOf(event.params).document.enrollment?.bookings?.filter(({ fixed }) => fixed === true) ?? [];
		return change(event, form, 'set-bookings', { bookings: kept });
	}
};

function keepDate(url: URL): string {
	const date = url.searchParams.get('date');
	return date === null ? '' : `?date=${encodeURIComponent(date)}`;
}
