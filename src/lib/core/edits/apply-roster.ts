import { z } from 'zod';
import { isSameJson } from '../document/canonical';
import { date, id } from '../document/fields';
import { type EntryOf, entriesOf, indexOfId, withEntries } from '../document/lists';
import type { RolloutDocument } from '../document/schema';
import { fieldOf } from '../document/walk';
import { type Fault, fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { type Result, ok, refused } from '../kernel/result';
import { defineEdit } from './define-edit';
import { findStale } from './support/find-entry';
import { entriesParam } from './support/params';
import { withNameChanged } from './support/users';

type Person = EntryOf<'people'>;

/**
 * Takes a roster over: adds people who are new, changes the fields given of people who are there and no others, and sets
 * the last day of those who left; whoever has another number now gets it first, everywhere. Nobody is deleted, as what is recorded of them must outlast them; a last day that is
 * earlier already stays.
 */
export default defineEdit({
	name: 'apply-roster',
	summary:
		'Adds the people who joined, changes the given fields of those who moved, and sets the last day of those who left.',
	params: z.strictObject({
		people: entriesParam.describe(
			'People as in the document; of those who are there, the id and the fields that change'
		),
		was: entriesParam
			.nullish()
			.describe(
				'Changing fields as they were seen, each with the id of its person; refused when one has changed since'
			),
		leave: z
			.strictObject({ ids: z.array(id, { error: 'a list of ids of people' }), leavesOn: date })
			.nullish()
			.describe('Who left, and their last day'),
		renumber: z
			.array(z.strictObject({ at: id, to: id }), { error: 'a list of numbers that are and that shall be' })
			.nullish()
			.describe('Who has another number now: changed first, wherever the person is named')
	}),
	apply(original, { people, was, leave, renumber }) {
		const renumbered = withNumbers(original, renumber ?? []);
		if (!renumbered.ok) return renumbered;
		const document = renumbered.value;
		const present = entriesOf(document, 'people');
		const indexById = new Map(present.map((person, index) => [person.id, index]));
		const given = new Set<unknown>();
		const faults: Fault[] = people.flatMap((person, index) => {
			const personId = fieldOf(person, 'id');
			const isRepeated = given.has(personId);
			given.add(personId);
			return isRepeated ? [fault(['people', index, 'id'], personId, 'an id that stands once in this list')] : [];
		});
		faults.push(
			...findStale(
				was ?? [],
				(was ?? []).map((seen) => presentFields(seen, present, indexById))
			)
		);
		const next: Person[] = [...present];
		for (const person of people) {
			const index = indexById.get(String(fieldOf(person, 'id')));
			if (index === undefined) next.push(person as Person);
			else next[index] = withFields(next[index], person);
		}
		for (const [place, personId] of (leave?.ids ?? []).entries()) {
			const index = indexById.get(personId);
			const at = ['leave', 'ids', place];
			const before = index === undefined ? undefined : next[index];
			if (leave === null || leave === undefined) continue;
			if (index === undefined || before === undefined) {
				faults.push(fault(at, personId, 'the id of a person', nearestName(personId, indexById.keys())));
			} else if (given.has(personId))
				faults.push(fault(at, personId, 'somebody who is not among the people given too'));
			else if (before.startsOn && before.startsOn > leave.leavesOn) {
				faults.push(
					fault(at, personId, `somebody who has started by ${leave.leavesOn}; the first day is ${before.startsOn}`)
				);
			} else if (!before.leavesOn || before.leavesOn > leave.leavesOn) {
				next[index] = { ...before, leavesOn: leave.leavesOn };
			}
		}
		return faults.length > 0 ? refused(faults) : ok(withEntries(document, 'people', next));
	},
	placed({ people }, after) {
		const entries = entriesOf(after, 'people');
		return people.map((person, index) => ({
			param: ['people', index],
			at: ['people', indexOfId(entries, String(fieldOf(person, 'id')))]
		}));
	},
	describe({ people, leave, renumber }, before) {
		const ids = new Set(entriesOf(before, 'people').map((person) => person.id));
		for (const { to } of renumber ?? []) ids.add(to);
		const moved = people.filter((person) => ids.has(String(fieldOf(person, 'id')))).length;
		const parts = [`${people.length - moved} joined`, `${moved} changed`, `${leave?.ids.length ?? 0} left`];
		if (renumber && renumber.length > 0) parts.push(`${renumber.length} with another number`);
		return `Roster taken over: ${parts.join(', ')}`;
	},
	remember: ({ people, leave, renumber }) => ({
		people: people.length,
		leave: leave ? { ids: leave.ids.length, leavesOn: leave.leavesOn } : null,
		...(renumber && renumber.length > 0 ? { renumber: renumber.length } : {})
	})
});

/** The document in which people have other numbers; refused where nobody has the old one or somebody the new one. */
function withNumbers(
	document: RolloutDocument,
	renumber: readonly { readonly at: string; readonly to: string }[]
): Result<RolloutDocument> {
	let changed = document;
	const faults = renumber.flatMap(({ at, to }, place): Fault[] => {
		const entries = entriesOf(changed, 'people');
		const index = indexOfId(entries, at);
		const person = entries[index];
		if (!person) {
			const ids = entries.map((one) => one.id);
			return [fault(['renumber', place, 'at'], at, 'the id of a person', nearestName(at, ids))];
		}
		if (at === to) return [];
		if (indexOfId(entries, to) >= 0) return [fault(['renumber', place, 'to'], to, 'an id that no other person has')];
		const named = withNameChanged(changed, 'people', at, to);
		changed = withEntries(named, 'people', entriesOf(named, 'people').with(index, { ...person, id: to }));
		return [];
	});
	return faults.length > 0 ? refused(faults) : ok(changed);
}

/** The fields that were seen of a person, as they are now; left out and null are the same. */
function presentFields(
	seen: Readonly<Record<string, unknown>>,
	present: readonly Person[],
	indexById: ReadonlyMap<string, number>
): Readonly<Record<string, unknown>> {
	const person = present[indexById.get(String(seen['id'])) ?? -1];
	return Object.fromEntries(
		Object.entries(seen).map(([key, value]) => {
			const now = fieldOf(person, key);
			return [key, now ?? (Array.isArray(value) && value.length === 0 && person ? [] : null)];
		})
	);
}

/** A person with the fields of another object; the same object where nothing changes. */
function withFields(person: Person | undefined, fields: Readonly<Record<string, unknown>>): Person {
	const changed = Object.entries(fields).filter(([key, value]) => {
		const before = fieldOf(person, key);
		return !isSameJson(before ?? null, value) && !(before === undefined && Array.isArray(value) && value.length === 0);
	});
	return (changed.length === 0 && person ? person : { ...person, ...Object.fromEntries(changed) }) as Person;
}
