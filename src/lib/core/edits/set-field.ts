import { z } from 'zod';
import { isSameJson } from '../document/canonical';
import { entry } from '../document/fields';
import { type EntryOf, entriesOf, indexOfId, replaced, stepsOf, valueAt, withEntries } from '../document/lists';
import { fieldOf } from '../document/walk';
import { fault } from '../kernel/fault';
import { ok, refused } from '../kernel/result';
import { defineEdit } from './define-edit';
import { capitalized, entryTitle } from './support/entry-titles';
import { atParam, collectionParam, findEntry, findStale, wasParam } from './support/find-entry';
import { pastSecondPerson, templateAt } from './support/second-person';

/** Sets one field of an entry, however deep, and leaves the rest of the entry as it is written. */
export default defineEdit({
	name: 'set-field',
	summary: 'Sets one field of an entry, such as `week`, `sat` of a schedule; null takes it away.',
	params: entry({
		collection: collectionParam,
		at: atParam,
		path: z
			.array(z.string(), { error: 'a list of keys' })
			.min(1, { error: 'at least one key' })
			.describe('The keys from the entry to the field: ["week", "sat"]'),
		value: z.unknown().describe('As in the document; null takes it away'),
		was: wasParam.optional()
	}),
	apply(document, { collection, at, path, value, was }) {
		const found = findEntry(document, collection, at);
		if (!found.ok) return found;
		const entries = entriesOf(document, collection);
		const before = entries[found.value];
		const present = valueAt(before, path) ?? null;
		const stale = isEmpty(was) && isEmpty(present) ? [] : findStale(was, present);
		if (stale.length > 0) return refused(stale);
		if (path[0] === 'id') return refused([fault(['path', 0], 'id', 'another field; ids are changed by rename-entry')]);
		if (isSameJson(present, value ?? null)) return ok(document);
		const after = replaced(before, path, value ?? undefined) as EntryOf<typeof collection>;
		if (collection === 'templates') {
			// Told at the value, whichever part of it is meant.
			const unseen = pastSecondPerson(document, templateAt(document, found.value), after, []);
			if (unseen.length > 0) return refused(unseen.map(({ expected }) => fault(['value'], value, expected)));
		}
		return ok(withEntries(document, collection, entries.with(found.value, after)));
	},
	placed({ collection, at, path }, after) {
		const index = typeof at === 'number' ? at : indexOfId(entriesOf(after, collection), at);
		return [{ param: ['value'], at: [...stepsOf(collection), index, ...path] }];
	},
	describe({ collection, at, path }, before) {
		const found = findEntry(before, collection, at);
		const present = found.ok ? entriesOf(before, collection)[found.value] : { id: at };
		return `${capitalized(entryTitle(collection, present))}: ${path.join(', ')} changed`;
	}
});

/** Left out, null and empty mean the same. */
function isEmpty(value: unknown): boolean {
	return value === null || (Array.isArray(value) && value.length === 0) || isObjectWithout(value);
}

function isObjectWithout(value: unknown): boolean {
	return (
		typeof value === 'object' &&
		value !== null &&
		!Array.isArray(value) &&
		Object.keys(value).every((key) => fieldOf(value, key) === undefined)
	);
}
