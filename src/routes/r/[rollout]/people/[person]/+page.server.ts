import { error } from '@sveltejs/kit';
import { whyHref } from '$lib/components/access/why-href';
import check from '$lib/core/answers/check';
import { matchingAssignments } from '$lib/core/access/matching';
import type { LocalDateTime } from '$lib/core/calendar/local-date-time';
import { nameOf } from '$lib/core/document/names';
import { standingByPerson } from '$lib/core/enrollment/standing';
import { todayAt } from '$lib/server/clock';
import { rolloutOf } from '$lib/server/http/change';
import { putAction, removeAction } from '$lib/server/http/entry-actions';
import { textIn } from '$lib/server/http/forms';
import { personIn } from '$lib/server/http/person-form';
import { ask } from '$lib/server/rollouts';
import { personDoorView } from '$lib/server/views/explained';
import { personChoices } from '$lib/server/views/person-choices';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	const { rollout } = open;
	const person = rollout.people.find(({ id }) => id === params.person);
	if (!person) error(404, `Nobody has the staff number ${params.person}.`);
	const now = `${todayAt(rollout.site.timeZone)}T08:00` as LocalDateTime;
	const found = await ask(open, check, {});
	if (!found.ok) error(422, found.faults[0]?.message ?? '');
	const absences = rollout.absences.flatMap((absence, place) =>
		absence.person === person.id ? [{ ...absence, place }] : []
	);
	return {
		person,
		choices: personChoices(rollout),
		standing: standingByPerson(rollout).get(person.id) ?? ('to-book' as const),
		findings: found.value.findings
			.filter(({ subject }) => subject['person'] === person.id)
			.map((found) => ({ ...found, explained: whyHref(found) })),
		assignments: matchingAssignments(rollout)(person).flatMap((place) => {
			const assignment = rollout.assignments[place];
			if (!assignment) return [];
			const { id, accessProfile, from, until } = assignment;
			return [{ id, from, until, profile: nameOf(rollout.accessProfiles, accessProfile) }];
		}),
		absences,
		absence: absences.find(({ place }) => String(place) === url.searchParams.get('absence')) ?? null,
		bookings: rollout.enrollment.bookings
			.filter((booking) => booking.person === person.id)
			.map((booking) => ({ ...booking, stationName: nameOf(rollout.enrollment.stations, booking.station) })),
		consents: rollout.privacy.consents.filter((consent) => consent.person === person.id),
		templates: rollout.privacy.templates.filter((template) => template.person === person.id),
		now,
		opens: personDoorView(rollout, person, url.searchParams, now),
		doors: rollout.doors.map(({ id, name }) => ({ id, name: name ?? id }))
	};
};

export const actions: Actions = {
	put: putAction('people', personIn, {
		then: (url, id) => url.pathname.replace(/[^/]*$/, encodeURIComponent(id))
	}),
	remove: removeAction('people', (url) => url.pathname.replace(/\/[^/]*$/, '')),
	putAbsence: putAction('absences', (form) => ({
		person: textIn(form, 'person') ?? '',
		from: textIn(form, 'from'),
		until: textIn(form, 'until')
	})),
	removeAbsence: removeAction('absences')
};
