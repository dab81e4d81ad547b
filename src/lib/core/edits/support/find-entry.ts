import { z } from 'zod';
import { isSameJson } from '../../document/canonical';
import { type CollectionName, collections } from '../../document/collections';
import { collectionNames, entriesOf, indexOfId } from '../../document/lists';
import type { RolloutDocument } from '../../document/schema';
import { fieldOf } from '../../document/walk';
import { type Fault, fault } from '../../kernel/fault';
import { nearestName } from '../../kernel/nearest';
import { type Result, ok, refused } from '../../kernel/result';

/** Parameters that point at a list and an entry of it. */
export const collectionParam = z
	.enum(collectionNames, { error: `one of ${collectionNames.join(', ')}` })
	.describe('The list');

export const atParam = z
	.union([z.string(), z.int().min(0)], { error: 'the id of an entry, or its place from 0 in a list without ids' })
	.describe('The entry: its id, or its place from 0 in a list without ids');

export const wasParam = z
	.unknown()
	.describe('The entry as it was seen; when it has changed since, the edit is refused instead of overwriting');

const changedMeanwhile = 'what is there now; it was changed in the meantime. Look at it again and repeat the change';

/** The fault of an entry or part that is no longer what somebody saw when deciding to change it. */
export function findStale(seen: unknown, present: unknown): readonly Fault[] {
	return seen === undefined || isSameJson(seen, present) ? [] : [fault(['was'], seen, changedMeanwhile)];
}

/** True for the fault that `findStale` gives: the call was right, and came too late. */
export function isStale(one: Fault): boolean {
	return one.expected === changedMeanwhile;
}

/** The place of an entry in its list, by id or, where a list has no ids, by place. Refuses one that is not there. */
export function findEntry(
	document: RolloutDocument,
	name: CollectionName,
	at: string | number,
	was?: unknown
): Result<number> {
	const entries = entriesOf(document, name);
	const { key, one } = collections[name];
	if (key === 'id') {
		const index = typeof at === 'string' ? indexOfId(entries, at) : -1;
		if (index < 0) return refused([notThere(entries, at, one)]);
		return stillSame(entries, index, was);
	}
	if (typeof at === 'string' || at >= entries.length) {
		const expected =
			entries.length === 0
				? `a place in a list with entries; there is no ${one}`
				: `the place of ${collections[name].a}, from 0 to ${entries.length - 1}`;
		return refused([fault(['at'], at, expected)]);
	}
	return stillSame(entries, at, was);
}

function stillSame(entries: readonly unknown[], index: number, was: unknown): Result<number> {
	const stale = findStale(was, entries[index]);
	return stale.length > 0 ? refused(stale) : ok(index);
}

function notThere(entries: readonly unknown[], at: string | number, one: string): Fault {
	const ids = entries.map((entry) => String(fieldOf(entry, 'id')));
	const nearest = typeof at === 'string' ? nearestName(at, ids) : undefined;
	return fault(['at'], at, `the id of one of the ${ids.length} entries that are there (${one})`, nearest);
}
