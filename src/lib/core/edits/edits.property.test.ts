import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arbitraryDocument } from '../../../../tests/support/arbitrary-rollout';
import { readRolloutValue } from '../answers/support/read-rollout';
import { canonicalJson } from '../document/canonical';
import { collections } from '../document/collections';
import { collectionNames, entriesOf } from '../document/lists';
import type { ReadDocument } from '../document/read';
import { findUsers } from './support/users';
import { applyEdit } from './index';

function read(document: unknown): ReadDocument {
	const result = readRolloutValue(document);
	if (!result.ok) throw new Error('the document should be valid');
	return result.value;
}

/** A list that has entries, and one of them; undefined where the document has none at all. */
function pick({ document }: ReadDocument, list: number, entry: number) {
	const full = collectionNames.filter((name) => entriesOf(document, name).length > 0);
	const collection = full[list % full.length];
	if (collection === undefined) return undefined;
	const entries = entriesOf(document, collection);
	const index = entry % entries.length;
	const picked = entries[index] as unknown as Record<string, unknown>;
	const isKeyed = collections[collection].key === 'id';
	return { collection, picked, at: isKeyed ? String(picked['id']) : index, isKeyed };
}

/** A template that is left somewhere, where two people confirm an erasure. */
function isLeftUnseen(
	{ document }: ReadDocument,
	{ collection, picked }: { collection: string; picked: object }
): boolean {
	if (collection !== 'templates' || document.privacy?.erasureRules?.secondPerson !== true) return false;
	const template = picked as { enrolledOn: string; storedOn: string[]; erasures?: { from: string; on: string }[] };
	const { enrolledOn, storedOn, erasures = [] } = template;
	// What is dated before the enrollment erased another one.
	return storedOn.some((place) => !erasures.some(({ from, on }) => from === place && on >= enrolledOn));
}

const picks = fc.tuple(fc.nat(), fc.nat());

describe('on any valid document', () => {
	test('an entry is removed exactly when nothing names it and no second person waits for it', () => {
		let [removed, kept] = [0, 0];
		fc.assert(
			fc.property(arbitraryDocument(), picks, (document, [list, entry]) => {
				const before = read(document);
				const picked = pick(before, list, entry);
				if (!picked) return;
				const { collection, at, isKeyed } = picked;
				const users = isKeyed ? findUsers(document, collection, String(at)) : [];
				const after = applyEdit(before, 'remove-entry', { collection, at });
				expect(after.ok).toBe(users.length === 0 && !isLeftUnseen(before, picked));
				if (after.ok) removed++;
				else kept++;
			}),
			{ numRuns: 200 }
		);
		expect(Math.min(removed, kept)).toBeGreaterThan(20);
	});

	test('renaming there and back leaves the document as it was', () => {
		fc.assert(
			fc.property(arbitraryDocument(), picks, (document, [list, entry]) => {
				const before = read(document);
				const picked = pick(before, list, entry);
				if (!picked?.isKeyed) return;
				const { collection } = picked;
				const to = 'an id that is nowhere else';
				const there = applyEdit(before, 'rename-entry', { collection, at: picked.at, to });
				if (!there.ok) throw new Error(there.faults.map((one) => one.message).join('\n'));
				expect(findUsers(there.value.document, collection, String(picked.at))).toEqual([]);
				const back = applyEdit(there.value, 'rename-entry', { collection, at: to, to: picked.at });
				if (!back.ok) throw new Error(back.faults.map((one) => one.message).join('\n'));
				expect(canonicalJson(back.value.document)).toBe(canonicalJson(document));
				expect(canonicalJson(back.value.rollout)).toBe(canonicalJson(before.rollout));
			}),
			{ numRuns: 200 }
		);
	});

	test('what an edit does not touch stays the same object', () => {
		fc.assert(
			fc.property(arbitraryDocument(), picks, (document, [list, entry]) => {
				const before = read(document);
				const picked = pick(before, list, entry);
				if (!picked) return;
				const { collection, at, picked: old } = picked;
				const after = applyEdit(before, 'put-entry', { collection, at, entry: { ...old } });
				if (!after.ok) throw new Error(after.faults.map((one) => one.message).join('\n'));
				for (const name of collectionNames) {
					const [was, is] = [entriesOf(before.document, name), entriesOf(after.value.document, name)];
					if (name !== collection) expect(is).toStrictEqual(was);
					expect(is.filter((one, index) => one !== was[index])).toHaveLength(name === collection ? 1 : 0);
				}
			}),
			{ numRuns: 100 }
		);
	});
});
