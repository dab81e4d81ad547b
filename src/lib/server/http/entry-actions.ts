import { type ActionFailure, type RequestEvent, redirect } from '@sveltejs/kit';
import { type CollectionName, collections } from '$lib/core/document/collections';
import { entriesOf, indexOfId } from '$lib/core/document/lists';
import { editRollout } from '$lib/server/rollouts';
import { type Refused, change, refusedForm, rolloutOf } from './change';
import { textIn } from './forms';

/** The form actions that add, change and remove the entries of a list: the same for every list of the document. */

type Fields = Readonly<Record<string, unknown>>;

/** A form action that comes back only when it was refused. */
type EntryAction = (event: RequestEvent) => Promise<ActionFailure<Refused>>;

interface PutOptions {
	/** Where the browser is sent when it is done; the page itself where left out. */
	readonly then?: (url: URL, id: string) => string;
}

/**
 * Adds an entry, or changes the one that the field `at` names. `read` gives the fields that the form shows; what the entry
 * holds beyond them stays as it is. A field that is null is left out of the entry.
 */
export function putAction(
	collection: CollectionName,
	read: (form: FormData, before: unknown) => Fields,
	{ then }: PutOptions = {}
): EntryAction {
	return async (event) => {
		const form = await event.request.formData();
		const { document } = rolloutOf({ rollout: String(event.params['rollout']) });
		const at = atOf(form, collection);
		const entries: readonly unknown[] = entriesOf(document, collection);
		const before = entries[typeof at === 'number' ? at : at === null ? -1 : indexOfId(entries, at)];
		const fields = { ...(typeof before === 'object' ? before : {}), ...read(form, before) };
		const entry = Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null));
		const id = textIn(form, 'id') ?? '';
		return change(event, form, 'put-entry', { collection, entry, at }, then?.(event.url, id));
	};
}

/** Removes the entry that the field `at` names; refused, with every user told, while something names it. */
export function removeAction(collection: CollectionName, then?: (url: URL) => string): EntryAction {
	return async (event) => {
		const form = await event.request.formData();
		const at = atOf(form, collection);
		const outcome = editRollout(
			String(event.params['rollout']),
			'remove-entry',
			{ collection, at: at ?? '' },
			event.locals.actor
		);
		if (!outcome.ok) return refusedForm(outcome, form, event.url);
		redirect(303, then?.(event.url) ?? event.url.pathname);
	};
}

/** The id, or the place in a list without ids, that the field `at` names; null for a new entry. */
function atOf(form: FormData, collection: CollectionName): string | number | null {
	const text = textIn(form, 'at');
	if (text === null) return null;
	return collections[collection].key === 'id' ? text : Number(text);
}
