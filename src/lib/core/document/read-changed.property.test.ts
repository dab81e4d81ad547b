import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arbitraryDocument } from '../../../../tests/support/arbitrary-rollout';
import { canonicalJson } from './canonical';
import { type EntryOf, collectionNames, entriesOf, stepsOf, withEntries, withValue } from './lists';
import { faultsOfIssues } from './faults-of-issues';
import { findLinkFaults } from './link-faults';
import { findOrderFaults } from './order-faults';
import { readValue } from './read';
import { readChanged } from './read-changed';
import { type RolloutDocument, rolloutSchema } from './schema';

const known = { regimes: ['us-il', 'us-tx', 'us-wa', 'eu', 'uk', 'fr', 'ca-qc'] };

/** What reading gives, faults in an order that does not depend on the way. */
function told(read: ReturnType<typeof readValue>): unknown {
	if (read.ok) return { rollout: canonicalJson(read.value.rollout), document: canonicalJson(read.value.document) };
	return [...new Set(read.faults.map((one) => `${one.message} ${canonicalJson(one.value)}`))].sort();
}

/** Reading everything by the schema of the whole document, which `readChanged` never applies as a whole. */
function readAtOnce(document: RolloutDocument): ReturnType<typeof readValue> {
	const parsed = rolloutSchema.safeParse(document);
	const faults = [
		...(parsed.success ? [] : faultsOfIssues(document, parsed.error.issues)),
		...findLinkFaults(document, known),
		...findOrderFaults(document)
	];
	if (!parsed.success || faults.length > 0) return { ok: false, faults };
	return { ok: true, value: { document, rollout: parsed.data } };
}

/** Changes that people and programs make, many of which leave something that cannot be read. */
const changes: readonly ((document: RolloutDocument, other: RolloutDocument, n: number) => RolloutDocument)[] = [
	(document, other, n) => {
		const name = collectionNames[n % collectionNames.length] as 'areas';
		return withEntries(document, name, entriesOf(other, name));
	},
	(document, _, n) => {
		const name = collectionNames[n % collectionNames.length] as 'areas';
		return withEntries(document, name, entriesOf(document, name).slice(1));
	},
	(document, _, n) => {
		const name = collectionNames[n % collectionNames.length] as 'areas';
		const entries = entriesOf(document, name);
		const put = { ...entries[n % (entries.length || 1)], id: 'new', colour: n } as unknown as EntryOf<'areas'>;
		return withEntries(document, name, [put, ...entries, entries.at(-1) ?? put]);
	},
	(document, other) => withValue(document, ['site'], other.site),
	(document, _, n) =>
		withValue(document, stepsOf(collectionNames[n % collectionNames.length] as 'areas'), n % 2 ? null : 7),
	(document, other) => withValue(document, ['enrollment'], other.enrollment ?? undefined),
	(document) => withValue(document, ['privacy', 'regimes'], ['us-ill', 1]),
	(document) => withValue(document, ['horizon'], { from: '2027-02-01', until: '2027-01-01' }),
	(document, other) => withValue(document, ['shiftPatterns'], other.shiftPatterns ?? undefined)
];

describe('reading what changed', () => {
	test('says the same as reading everything', () => {
		let refusals = 0;
		fc.assert(
			fc.property(
				arbitraryDocument(),
				arbitraryDocument(),
				fc.array(fc.tuple(fc.nat(changes.length - 1), fc.nat()), { minLength: 1, maxLength: 3 }),
				(first, other, picks) => {
					const before = readValue(first, known);
					if (!before.ok) throw new Error('the first document should be valid');
					const after = picks.reduce(
						(document, [kind, n]) => (changes[kind] as (typeof changes)[0])(document, other, n),
						first
					);
					const read = readChanged(before.value, after, known);
					if (!read.ok) refusals++;
					expect(told(read)).toEqual(told(readAtOnce(after)));
					expect(told(readValue(after, known))).toEqual(told(readAtOnce(after)));
				}
			),
			{ numRuns: 200 }
		);
		expect(refusals).toBeGreaterThan(30);
		expect(refusals).toBeLessThan(195);
	});

	test('takes over the entries that are the same objects', () => {
		const document = {
			format: 'doorwright.rollout' as const,
			version: 1 as const,
			site: { name: 'Test', timeZone: 'UTC' },
			horizon: { from: '2027-01-04', until: '2027-12-31' },
			areas: [{ id: 'street' }, { id: 'lobby' }]
		} as RolloutDocument;
		const before = readValue(document, known);
		if (!before.ok) throw new Error('this can be read');
		const after = readChanged(
			before.value,
			withEntries(document, 'areas', [...entriesOf(document, 'areas'), { id: 'yard' }]),
			known
		);
		if (!after.ok) throw new Error('this can be read');
		expect(after.value.rollout.areas[0]).toBe(before.value.rollout.areas[0]);
		expect(after.value.rollout.people).toEqual([]);
		expect(after.value.rollout.areas[2]).toEqual({ id: 'yard', name: null, outside: false });
	});

	test('refuses a key that would be lost on the next reading', () => {
		const schedule = JSON.parse('{"id":"s","holidays":{"__proto__":"closed"}}') as EntryOf<'schedules'>;
		const document = {
			format: 'doorwright.rollout',
			version: 1,
			site: { name: 'Test', timeZone: 'UTC' },
			horizon: { from: '2027-01-04', until: '2027-12-31' }
		} as RolloutDocument;
		const before = readValue(document, known);
		if (!before.ok) throw new Error('this can be read');
		const read = readChanged(before.value, withEntries(document, 'schedules', [schedule]), known);
		expect(read.ok ? [] : read.faults.map((one) => one.path)).toEqual(['$.schedules[0].holidays.__proto__']);
	});
});
