import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arbitraryDocument } from '../../../../../tests/support/arbitrary-rollout';
import { smallRollouts } from '../../../../../tests/support/small-rollouts';
import { readRolloutValue } from '../../answers/support/read-rollout';
import { AccessModel } from '../../access/model';
import { CoverageFinder } from '../../access/coverage';
import { type EntryOf, collectionNames, entriesOf, withEntries, withValue } from '../../document/lists';
import type { ReadDocument } from '../../document/read';
import { readChanged } from '../../document/read-changed';
import type { Rollout, RolloutDocument } from '../../document/schema';
import { rulePacks } from '../../privacy/packs';
import { checks, findAll } from '..';
import { type Checked, recheck } from './recheck';

/** Lists that access follows from, each as likely to be changed as all others together. */
const lists = [
	...(['areas', 'doors', 'doorGroups', 'controllers', 'readers', 'schedules', 'holidays', 'people'] as const),
	...(['shiftPatterns', 'absences', 'accessProfiles', 'assignments', 'waves'] as const)
];
const parts = [['site'], ['horizon'], ['holidays', 'coveredUntil']] as const;

type Change = (document: RolloutDocument, other: RolloutDocument, n: number) => RolloutDocument;

function listOf(n: number): 'areas' {
	const names = n % 8 === 7 ? collectionNames : lists;
	return names[Math.floor(n / 8) % names.length] as 'areas';
}

/** Changes of one entry, of a list, and of a part; what cannot be read is passed over by the test. */
const changes: Readonly<Record<string, Change>> = {
	'an entry as another document has it': (document, other, n) => {
		const name = listOf(n);
		const [entries, others] = [entriesOf(document, name), entriesOf(other, name)];
		const at = n % (entries.length || 1);
		const taken = others[n % (others.length || 1)];
		if (!taken || entries.length === 0) return document;
		const id = (entries[at] as { id?: string }).id;
		return withEntries(document, name, entries.with(at, id === undefined ? taken : { ...taken, id }));
	},
	'an entry with one field as another has it': (document, _, n) => {
		const name = listOf(n);
		const entries = entriesOf(document, name) as readonly object[];
		const [at, from] = [n % (entries.length || 1), (n >> 3) % (entries.length || 1)];
		const fields = Object.entries(entries[from] ?? {}).filter(([key]) => key !== 'id');
		const field = fields[(n >> 6) % (fields.length || 1)];
		if (!field) return document;
		const put = { ...entries[at], [field[0]]: field[1] as unknown };
		return withEntries(document, name, entries.with(at, put) as EntryOf<'areas'>[]);
	},
	'another name': (document, _, n) => {
		const name = listOf(n);
		const entries = entriesOf(document, name);
		const at = n % (entries.length || 1);
		const entry = entries[at];
		if (!entry) return document;
		return withEntries(document, name, entries.with(at, { ...entry, name: `Name ${n}` }));
	},
	'an entry fewer': (document, _, n) => {
		const name = listOf(n);
		const entries = entriesOf(document, name);
		return withEntries(document, name, entries.toSpliced(n % (entries.length || 1), 1));
	},
	'an entry more': (document, _, n) => {
		const name = listOf(n);
		const entries = entriesOf(document, name);
		const entry = entries[n % (entries.length || 1)];
		if (!entry) return document;
		const put = 'id' in entry ? { ...entry, id: `new ${n}` } : { ...(entry as object) };
		return withEntries(document, name, entries.toSpliced(n % entries.length, 0, put as EntryOf<'areas'>));
	},
	'another order': (document, _, n) => {
		const name = listOf(n);
		return withEntries(document, name, entriesOf(document, name).toReversed());
	},
	'a list as another document has it': (document, other, n) => {
		const name = listOf(n);
		return withEntries(document, name, entriesOf(other, name));
	},
	'a part as another document has it': (document, other, n) => {
		const steps = parts[n % parts.length] as readonly string[];
		const value = steps.reduce<unknown>((at, step) => (at as Record<string, unknown> | undefined)?.[step], other);
		return withValue(document, steps, value ?? undefined);
	},
	'a longer horizon': (document, _, n) =>
		withValue(document, ['horizon'], { ...document.horizon, from: `${2000 + (n % 3)}-06-0${1 + (n % 9)}` }),
	'early arrival': (document, _, n) =>
		withValue(document, ['site'], { ...document.site, arriveEarlyMinutes: [0, 15, 60, 2000][n % 4] }),
	'nothing at all': (document) => ({ ...document })
};
const kinds = Object.keys(changes);

const known = { regimes: [...rulePacks.keys()] };
const picks = fc.array(fc.tuple(fc.nat(kinds.length - 1), fc.nat(1_000_000)), { minLength: 1, maxLength: 8 });
/** Documents in every form, over so few dates that many can be checked. */
const anyForm = arbitraryDocument().map((document): RolloutDocument => {
	const from = new Date(document.horizon.from);
	const until = new Date(Math.min(Date.parse(document.horizon.until), from.getTime() + 40 * 86_400_000));
	const horizon = { from: document.horizon.from, until: until.toISOString().slice(0, 10) } as Rollout['horizon'];
	return { ...document, horizon };
});
const plain = smallRollouts(20) as unknown as fc.Arbitrary<RolloutDocument>;

/** Goes through states of a rollout, each made from the one before by an edit; gives how many edits could be read. */
async function follow(
	first: RolloutDocument,
	other: RolloutDocument,
	picked: readonly (readonly [number, number])[],
	visit: (rollout: Rollout) => Promise<void>
): Promise<string[]> {
	const read = readRolloutValue(first);
	if (!read.ok) throw new Error('the first document should be valid');
	let state: ReadDocument = read.value;
	await visit(state.rollout);
	const done: string[] = [];
	for (const [kind, n] of picked) {
		const name = kinds[kind] as string;
		const after = readChanged(state, (changes[name] as Change)(state.document, other, n), known);
		if (!after.ok) continue;
		state = after.value;
		done.push(name);
		await visit(state.rollout);
	}
	return done;
}

describe('checking again after an edit', () => {
	test.each([
		['rollouts around clock changes', plain, 200],
		['documents in every form', anyForm, 60]
	] as const)(
		'finds what a check from nothing finds, in the same order: %s',
		async (_, documents, numRuns) => {
			const seen = new Set<string>();
			let changed = 0;
			await fc.assert(
				fc.asyncProperty(documents, documents, picks, async (first, other, picked) => {
					let checked: Checked | null = null;
					let before = '';
					const done = await follow(first, other, picked, async (rollout) => {
						const again = await recheck(checked, rollout, checks);
						const full = await findAll(rollout);
						expect(again.findings).toEqual(full);
						checked = again.checked;
						const text = JSON.stringify(full);
						if (before !== '' && before !== text) changed++;
						before = text;
					});
					for (const name of done) seen.add(name);
				}),
				{ numRuns, seed: 20_270_105 }
			);
			expect([...seen].sort()).toEqual([...kinds].sort());
			expect(changed).toBeGreaterThan(numRuns / 4);
		},
		600_000
	);

	test('a model taken over answers as a new one: spans, reach, doors, uncovered shifts', async () => {
		await fc.assert(
			fc.asyncProperty(plain, plain, picks, async (first, other, picked) => {
				let model: AccessModel | undefined;
				let finder: CoverageFinder | undefined;
				await follow(first, other, picked, (rollout) => {
					const fresh = new AccessModel(rollout);
					const carried: AccessModel = new AccessModel(rollout, undefined, rollout.people, model);
					const finders = [new CoverageFinder(fresh), new CoverageFinder(carried, finder)] as const;
					for (const person of rollout.people) {
						const [a, b] = [fresh.findClass(person.id), carried.findClass(person.id)];
						if (!a || !b) throw new Error('everybody has a class');
						expect(carried.doorSetsOf(b)).toEqual(fresh.doorSetsOf(a));
						expect(carried.reachOf(b)).toEqual(fresh.reachOf(a));
						expect(carried.doorsOf(b)).toEqual(fresh.doorsOf(a));
						expect(finders[1].uncoveredOf(person)).toEqual(finders[0].uncoveredOf(person));
						const shift = finders[0].uncoveredOf(person)[0]?.shift;
						if (shift) expect(finders[1].gapsOf(person, shift)).toEqual(finders[0].gapsOf(person, shift));
					}
					[model, finder] = [carried, finders[1]];
					return Promise.resolve();
				});
			}),
			{ numRuns: 60, seed: 20_270_106 }
		);
	}, 600_000);
});
