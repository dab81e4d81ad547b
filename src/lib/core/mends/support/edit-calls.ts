import type { CollectionName } from '../../document/collections';
import type { Rollout } from '../../document/schema';
import type { EditCall } from '../define-mend';
import type { ScheduleChange } from './cover-schedule';

/** Sets a field of an entry; the rest of the entry stays as it is written. */
export function setField(
	collection: CollectionName,
	at: string | number,
	path: readonly string[],
	value: unknown
): EditCall {
	return { edit: 'set-field', params: { collection, at, path, value } };
}

/** Adds an entry to a list. */
export function addEntry(collection: CollectionName, entry: Readonly<Record<string, unknown>>): EditCall {
	return { edit: 'put-entry', params: { collection, entry } };
}

/** The edits that make a change of a schedule. */
export function scheduleEdits(id: string, { from, until, week, holidays }: ScheduleChange): EditCall[] {
	const set = (path: readonly string[], value: unknown) => setField('schedules', id, path, value);
	return [
		...(from === undefined ? [] : [set(['from'], from)]),
		...(until === undefined ? [] : [set(['until'], until)]),
		...Object.entries(week).map(([day, list]) => set(['week', day], list)),
		...[...holidays].map(([kind, treatment]) => set(['holidays', kind], treatment))
	];
}

/** An id that no entry of a list has: the wish, else with a number behind it. At most 64 characters. */
export function freshId(entries: readonly { readonly id: string }[], wish: string): string {
	const taken = new Set(entries.map(({ id }) => id));
	const base = wish.replace(/\p{C}/gu, '').slice(0, 56) || 'entry';
	if (!taken.has(base)) return base;
	for (let number = 2; ; number++) if (!taken.has(`${base}-${number}`)) return `${base}-${number}`;
}

/** Adds people to those whom an assignment names one by one. */
export function addPeople(rollout: Rollout, assignment: string, people: readonly string[]): EditCall {
	const present = rollout.assignments.find(({ id }) => id === assignment)?.who.people ?? [];
	return setField('assignments', assignment, ['who', 'people'], [...new Set([...present, ...people])]);
}
