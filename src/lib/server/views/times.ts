import { nameOf } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import type { TimesAnswer } from '$lib/core/roster/times/import-times';

/** How many rows of each table a page shows; the counts tell the whole. */
const most = 300;

/** Absences and shifts of a file as the sheet shows them before they are taken over. */
export function timesView(rollout: Rollout, answer: TimesAnswer) {
	const { source, columns, absences, patterns, known, problems } = answer;
	const { people, shiftPatterns } = rollout;
	return {
		source,
		known,
		columns: columns.flatMap(({ header, field }) => (field === null ? [] : [{ header, field }])),
		counts: { absences: absences.length, patterns: patterns.length, problems: problems.length },
		absences: absences.slice(0, most).map((one, place) => ({ ...one, place, name: nameOf(people, one.person) })),
		patterns: patterns.slice(0, most).map(({ person, before, after }) => ({
			id: person,
			name: nameOf(people, person),
			before: before === null ? 'none' : nameOf(shiftPatterns, before),
			after: nameOf(shiftPatterns, after)
		})),
		problems: problems.slice(0, most).map((one, place) => ({ ...one, place }))
	};
}
