import { z } from 'zod';
import { collections } from '../document/collections';
import { entriesOf, indexOfId, withEntries } from '../document/lists';
import { id, entry } from '../document/fields';
import { fault } from '../kernel/fault';
import { ok, refused } from '../kernel/result';
import { defineEdit } from './define-edit';
import { collectionParam, findEntry } from './support/find-entry';
import { withNameChanged } from './support/users';

/** Gives an entry another id, everywhere. */
export default defineEdit({
	name: 'rename-entry',
	summary: 'Gives an entry another id, in its list and wherever it is named.',
	params: entry({
		collection: collectionParam,
		at: z.string({ error: 'the id of an entry' }).describe('The id that it has'),
		to: id.describe('The id that it gets')
	}),
	apply(document, { collection, at, to }) {
		const { key, one } = collections[collection];
		if (key !== 'id') return refused([fault(['collection'], collection, 'a list whose entries have ids')]);
		const found = findEntry(document, collection, at);
		if (!found.ok) return found;
		if (at === to) return ok(document);
		if (indexOfId(entriesOf(document, collection), to) >= 0) {
			return refused([fault(['to'], to, `an id that no other ${one} has`)]);
		}
		const changed = withNameChanged(document, collection, at, to);
		const entries = entriesOf(changed, collection);
		const renamed = { ...(entries[found.value] as (typeof entries)[number]), id: to };
		return ok(withEntries(changed, collection, entries.with(found.value, renamed as (typeof entries)[number])));
	},
	describe({ collection, at, to }) {
		const { one } = collections[collection];
		return `${one.charAt(0).toUpperCase()}${one.slice(1)} ${at} renamed to ${to}`;
	}
});
