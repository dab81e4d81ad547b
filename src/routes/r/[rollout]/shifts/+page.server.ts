import { nameOf } from '$lib/core/document/names';
import { rolloutOf } from '$lib/server/http/change';
import { putAction, removeAction } from '$lib/server/http/entry-actions';
import { linesIn, linesOf, numberIn, textIn } from '$lib/server/http/forms';
import { readShifts, shiftLines } from '$lib/server/views/shift-lines';
import { personOptions } from '$lib/server/views/person-options';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url }) => {
	const { rollout } = rolloutOf(params);
	const { shiftPatterns, people, absences, holidays } = rollout;
	const patterns = shiftPatterns.map((pattern) => ({
		...pattern,
		shiftText: shiftLines(pattern.shifts),
		people: people.filter((person) => person.shiftPattern === pattern.id).length
	}));
	const rows = absences.map((absence, place) => ({ ...absence, place, name: nameOf(people, absence.person) }));
	return {
		patterns,
		pattern: patterns.find(({ id }) => id === url.searchParams.get('pattern')) ?? null,
		absences: rows,
		absence: rows.find(({ place }) => String(place) === url.searchParams.get('absence')) ?? null,
		kinds: [...new Set(holidays.days.map(({ kind }) => kind))].sort(),
		people: personOptions(people)
	};
};

export const actions: Actions = {
	putPattern: putAction('shiftPatterns', (form) => ({
		id: textIn(form, 'id') ?? '',
		name: textIn(form, 'name'),
		anchor: textIn(form, 'anchor') ?? '',
		cycleDays: numberIn(form, 'cycleDays') ?? '',
		shifts: readShifts(linesOf(form, 'shifts')),
		worksOn: linesIn(form, 'worksOn')
	})),
	removePattern: removeAction('shiftPatterns'),
	putAbsence: putAction('absences', (form) => ({
		person: textIn(form, 'person') ?? '',
		from: textIn(form, 'from'),
		until: textIn(form, 'until')
	})),
	removeAbsence: removeAction('absences')
};
