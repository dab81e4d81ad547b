import type { Person, Rollout } from '../document/schema';
import { type PersonField, personFields } from './fields';
import type { HeldRow, ReadPerson } from './people/read-people';
import type { Move, RosterChanges, RosterPerson, RosterValue } from './roster-answer';
import { cellText } from './values/cell-text';
import { foldedName } from './values/person-names';

/**
 * What a roster changes at a site: who joined, who moved (with what stands in the document and what the roster says,
 * field by field), who left, who stays as they are. Only fields for which the roster has a column and a readable cell are
 * compared. Nobody leaves by a row that was held back: a person of the document with its id, the id it may have had, or
 * its name (where only one has it) is in none of the lists. Joined, moved and unchanged people are in the order of the
 * roster, those who left in the order of the document.
 */
export function changesFor(
	people: readonly ReadPerson[],
	held: readonly HeldRow[],
	into: Rollout | undefined
): RosterChanges {
	const before = new Map((into?.people ?? []).map((person) => [person.id, person]));
	const here = new Set(people.map(({ person }) => person.id));
	const joined: string[] = [];
	const moved: Move[] = [];
	const unchanged: string[] = [];
	for (const { person, unread } of people) {
		const known = before.get(person.id);
		const fields = known ? changedFields(known, person, unread) : undefined;
		if (!known) joined.push(person.id);
		else if (fields) moved.push({ person: person.id, fields });
		else unchanged.push(person.id);
	}
	const unsure = peopleOfHeldRows(held, before, here);
	const left = [...before.keys()].filter((id) => !here.has(id) && !unsure.has(id));
	return { joined, moved, left, unchanged };
}

/** The fields that differ; undefined where none does, as with most people. */
function changedFields(
	known: Person,
	person: RosterPerson,
	unread: ReadonlySet<PersonField>
): Move['fields'] | undefined {
	const fields: [PersonField, readonly [RosterValue, RosterValue]][] = [];
	for (const field of personFields) {
		const value = person[field];
		if (field === 'id' || value === undefined || unread.has(field)) continue;
		const old = known[field];
		if (old === value) continue;
		if (comparable(field, old) !== comparable(field, value)) fields.push([field, [old, value]]);
	}
	return fields.length === 0 ? undefined : Object.fromEntries(fields);
}

/** A value as it is compared: what a roster's cell would be read as, lists in any order. */
function comparable(field: PersonField, value: RosterValue): string {
	if (value === null) return '';
	if (typeof value !== 'string') return JSON.stringify([...value].map(cellText).sort());
	return field === 'shiftPattern' || field === 'wave' || field === 'captureClass' ? value : cellText(value);
}

function peopleOfHeldRows(
	held: readonly HeldRow[],
	before: ReadonlyMap<string, Person>,
	here: ReadonlySet<string>
): ReadonlySet<string> {
	const unsure = new Set<string>();
	if (held.length === 0) return unsure;
	const idsByName = new Map<string, string[]>();
	for (const { id, name } of before.values()) {
		if (name === null || here.has(id)) continue;
		const key = foldedName(cellText(name));
		idsByName.set(key, [...(idsByName.get(key) ?? []), id]);
	}
	for (const { id, likely, name } of held) {
		if (id !== undefined) unsure.add(id);
		if (likely !== undefined) unsure.add(likely);
		const named = name === undefined ? [] : (idsByName.get(foldedName(name)) ?? []);
		if (named.length === 1 && named[0] !== undefined) unsure.add(named[0]);
	}
	return unsure;
}
