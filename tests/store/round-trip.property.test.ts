import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { canonicalJson } from '../../src/lib/core/document/canonical';
import { collectionNames, entriesOf } from '../../src/lib/core/document/lists';
import { readDocument } from '../../src/lib/core/document/read';
import { revisionOf } from '../../src/lib/core/document/revision';
import type { RolloutDocument } from '../../src/lib/core/document/schema';
import { forgetAll, getRollout } from '../../src/lib/server/open-rollouts';
import { editRollout, exportDocument, importDocument, listChanges, redo, undo } from '../../src/lib/server/rollouts';
import { arbitraryDocument } from '../support/arbitrary-rollout';
import { useDataFolder } from '../support/data-folder';
import { valueOf } from '../support/outcomes';

let data: ReturnType<typeof useDataFolder>;
beforeEach(() => (data = useDataFolder()));
afterEach(() => data.end());

/** The text of the file that a document is exported to, read from the store and not from memory. */
function exportedText(id: string): string {
	forgetAll();
	return valueOf(exportDocument(id));
}

describe('any valid document', () => {
	test('comes back from the store as the same JSON value, its keys and entries in the same order', () => {
		fc.assert(
			fc.property(arbitraryDocument(), (document) => {
				const text = JSON.stringify(document);
				const { id, revision } = valueOf(importDocument(text, 'Nora'));
				// Numbers that JSON does not tell apart, 0 and -0, are the same JSON value: compared as text.
				expect(JSON.stringify(JSON.parse(exportedText(id)))).toBe(text);
				expect(getRollout(id)?.revision).toBe(revision);
				expect(revision).toBe(revisionOf(document));
			}),
			{ numRuns: 150 }
		);
	});

	test('becomes any other by an import over it, is taken back and made again', () => {
		fc.assert(
			fc.property(arbitraryDocument(), arbitraryDocument(), (first, second) => {
				const { id } = valueOf(importDocument(JSON.stringify(first), 'Nora'));
				valueOf(
					editRollout(id, 'replace-document', { document: JSON.parse(JSON.stringify(second)) as unknown }, 'Nora')
				);
				expect(canonicalJson(JSON.parse(exportedText(id)))).toBe(canonicalJson(second));
				valueOf(undo(id, 'Nora'));
				expect(canonicalJson(JSON.parse(exportedText(id)))).toBe(canonicalJson(first));
				valueOf(redo(id, 'Nora'));
				expect(canonicalJson(JSON.parse(exportedText(id)))).toBe(canonicalJson(second));
			}),
			{ numRuns: 50 }
		);
	});

	test('is what it was after any edits are taken back one by one', () => {
		fc.assert(
			fc.property(
				arbitraryDocument(),
				fc.array(fc.tuple(fc.nat(), fc.nat(), fc.nat(2)), { maxLength: 6 }),
				(document, picks) => {
					const { id } = valueOf(importDocument(JSON.stringify(document), 'Nora'));
					for (const pick of picks) tryEdit(id, pick);
					const after = exportedText(id);
					const made = valueOf(listChanges(id)).length - 1;
					for (let n = 0; n < made; n++) valueOf(undo(id, 'Nora'));
					expect(JSON.stringify(JSON.parse(exportedText(id)))).toBe(JSON.stringify(document));
					for (let n = 0; n < made; n++) valueOf(redo(id, 'Nora'));
					expect(exportedText(id)).toBe(after);
				}
			),
			{ numRuns: 40 }
		);
	});

	test('can be read, so that the documents above are valid indeed', () => {
		const seen = new Set<string>();
		fc.assert(
			fc.property(arbitraryDocument(), (document) => {
				const read = readDocument(JSON.stringify(document), {
					regimes: ['us-il', 'us-tx', 'us-wa', 'eu', 'uk', 'fr', 'ca-qc']
				});
				expect(read.ok ? [] : read.faults.map((one) => one.message)).toEqual([]);
				for (const name of collectionNames) if (entriesOf(document, name).length > 0) seen.add(name);
			}),
			{ numRuns: 300 }
		);
		expect([...seen].sort()).toEqual([...collectionNames].sort());
	});
});

/** Tries to add again, to take away or to move to the end one entry; most are refused somewhere, which is as good. */
function tryEdit(id: string, [list, entry, kind]: readonly [number, number, number]): void {
	const document = getRollout(id)?.document as RolloutDocument;
	const full = collectionNames.filter((name) => entriesOf(document, name).length > 0);
	const collection = full[list % full.length];
	if (collection === undefined) return;
	const entries = entriesOf(document, collection);
	const picked = entries[entry % entries.length] as unknown as Record<string, unknown>;
	const at = typeof picked['id'] === 'string' ? picked['id'] : entry % entries.length;
	if (kind === 0) editRollout(id, 'remove-entry', { collection, at }, 'Nora');
	else if (kind === 1)
		editRollout(id, 'put-entry', { collection, entry: { ...picked, id: `${String(at)}+` }, at }, 'Nora');
	else editRollout(id, 'put-entry', { collection, entry: { ...picked } }, 'Nora');
}
