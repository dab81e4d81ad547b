import { entry } from '../document/fields';
import { collections } from '../document/collections';
import { entriesOf, withEntries } from '../document/lists';
import { type Fault, fault } from '../kernel/fault';
import { ok, refused } from '../kernel/result';
import { defineEdit } from './define-edit';
import { capitalized, entryTitle } from './support/entry-titles';
import { atParam, collectionParam, findEntry, wasParam } from './support/find-entry';
import { leftUnseen, templateAt } from './support/second-person';
import { type Users, findUsers } from './support/users';

/** Takes an entry out of its list; refused while another entry names it. */
export default defineEdit({
	name: 'remove-entry',
	summary:
		'Takes an entry out of its list. Refused while something names it; every such entry is told. A template that is left somewhere stays where two people confirm an erasure.',
	params: entry({ collection: collectionParam, at: atParam, was: wasParam.optional() }),
	apply(document, { collection, at, was }) {
		const found = findEntry(document, collection, at, was);
		if (!found.ok) return found;
		if (collection === 'templates') {
			const unseen = leftUnseen(document, templateAt(document, found.value));
			if (unseen.length > 0) return refused(unseen);
		}
		const entries = entriesOf(document, collection);
		const users = collections[collection].key === 'id' ? findUsers(document, collection, String(at)) : [];
		if (users.length > 0) {
			const title = entryTitle(collection, entries[found.value]);
			return refused(users.map((of) => stillUsed(title, String(at), of)));
		}
		return ok(withEntries(document, collection, entries.toSpliced(found.value, 1)));
	},
	describe({ collection, at }, before) {
		const found = findEntry(before, collection, at);
		return `${capitalized(entryTitle(collection, found.ok ? entriesOf(before, collection)[found.value] : undefined))} removed`;
	}
});

/** How many users a sentence names; the fault's value holds them all. */
const most = 12;

function stillUsed(title: string, id: string, { collection, entries }: Users): Fault {
	const titles = entries.map((entry) => entryTitle(collection, entry));
	const rest = titles.length - most;
	const named = titles.slice(0, most).join('; ') + (rest > 0 ? `; and ${rest} more` : '');
	return {
		...fault(['at'], id, `an entry that nothing names`),
		value: { collection, usedBy: titles },
		message: `${capitalized(title)} is used by ${named}. Change or remove what uses it first.`
	};
}
