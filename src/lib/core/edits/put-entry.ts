import { collections } from '../document/collections';
import { entry as object } from '../document/fields';
import { type EntryOf, entriesOf, indexOfId, stepsOf, withEntries } from '../document/lists';
import { fieldOf } from '../document/walk';
import { fault } from '../kernel/fault';
import { ok, refused } from '../kernel/result';
import { defineEdit } from './define-edit';
import { capitalized, entryTitle } from './support/entry-titles';
import { atParam, collectionParam, findEntry, wasParam } from './support/find-entry';
import { objectParam } from './support/params';
import { pastSecondPerson, templateAt } from './support/second-person';
import { withNameChanged } from './support/users';

/** Adds an entry at the end of a list, or replaces the one at `at`. */
export default defineEdit({
	name: 'put-entry',
	summary: 'Adds an entry to a list, or replaces the entry at `at`; under a new id, whatever names it follows.',
	params: object({
		collection: collectionParam,
		entry: objectParam.describe('The entry, as in the document'),
		at: atParam.nullish(),
		was: wasParam.optional()
	}),
	apply(document, { collection, entry, at, was }) {
		const put = entry as EntryOf<typeof collection>;
		const entries = entriesOf(document, collection);
		const { key, one } = collections[collection];
		const id = key === 'id' ? fieldOf(entry, 'id') : undefined;
		const isNew = at === undefined || at === null;
		const found = isNew ? ok(entries.length) : findEntry(document, collection, at, was);
		if (!found.ok) return found;
		if (typeof id === 'string' && id !== at && indexOfId(entries, id) >= 0) {
			return refused([fault(['entry', 'id'], id, `an id that no other ${one} has`)]);
		}
		if (collection === 'templates') {
			const unseen = pastSecondPerson(document, isNew ? undefined : templateAt(document, found.value), entry, [
				'entry'
			]);
			if (unseen.length > 0) return refused(unseen);
		}
		if (isNew) return ok(withEntries(document, collection, [...entries, put]));
		const isRenamed = typeof id === 'string' && id !== at;
		const renamed = isRenamed ? withNameChanged(document, collection, String(at), id) : document;
		return ok(withEntries(renamed, collection, entriesOf(renamed, collection).with(found.value, put)));
	},
	placed({ collection, entry }, after) {
		const index = entriesOf(after, collection).indexOf(entry as EntryOf<typeof collection>);
		return [{ param: ['entry'], at: [...stepsOf(collection), index] }];
	},
	describe({ collection, entry, at }, before) {
		if (at === undefined || at === null) return `${capitalized(entryTitle(collection, entry))} added`;
		const found = findEntry(before, collection, at);
		const old = found.ok ? entriesOf(before, collection)[found.value] : entry;
		const [was, is] = [entryTitle(collection, old), entryTitle(collection, entry)];
		return was === is ? `${capitalized(is)} changed` : `${capitalized(was)} changed to ${is}`;
	}
});
