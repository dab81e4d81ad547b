import { nameOf } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import type { RosterAnswer, RosterValue } from '$lib/core/roster/roster-answer';

/** How many of each list a page shows; the counts tell the whole. */
const most = 300;

/** A proposal as the preview shows it. */
export function rosterView(rollout: Rollout, answer: RosterAnswer) {
	const personById = new Map(answer.people.map((person) => [person.id, person]));
	const { joined, moved, left, unchanged } = answer.changes;
	return {
		encoding: answer.encoding,
		delimiter: answer.delimiter ?? null,
		sheet: answer.sheet ?? null,
		sheets: answer.sheets ?? [],
		columns: answer.columns,
		problems: answer.problems.slice(0, most),
		counts: {
			people: answer.people.length,
			problems: answer.problems.length,
			joined: joined.length,
			moved: moved.length,
			left: left.length,
			unchanged: unchanged.length
		},
		joined: joined.slice(0, most).map((id) => {
			const person = personById.get(id);
			return { id, name: person?.name ?? id, department: person?.department ?? '', job: person?.job ?? '' };
		}),
		moved: moved.slice(0, most).map(({ person, fields }) => ({
			id: person,
			name: nameOf(rollout.people, person),
			fields: Object.entries(fields).map(([field, [before, after]]) => ({
				field,
				before: said(before),
				after: said(after)
			}))
		})),
		left: left.slice(0, most).map((id) => ({ id, name: nameOf(rollout.people, id) })),
		/** So many would leave that the file may be only a part of the list. */
		isHalfMissing: rollout.people.length >= 4 && left.length * 2 >= rollout.people.length
	};
}

function said(value: RosterValue): string {
	return value === null || value.length === 0 ? 'nothing' : typeof value === 'string' ? value : value.join(', ');
}
