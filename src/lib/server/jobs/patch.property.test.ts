import fc from 'fast-check';
import { expect, test } from 'vitest';
import { patchOf, patched } from './patch';

const lists = fc.array(fc.constantFrom(...Array.from({ length: 6 }, (_, n) => ({ n }))), { maxLength: 6 });
const values = fc.record({
	site: fc.record({ name: fc.constantFrom('a', 'b'), zone: fc.constantFrom(null, 'c') }),
	people: lists,
	part: fc.record({ days: lists, until: fc.constantFrom('x', null) }, { requiredKeys: ['days'] })
});

test('what is made of the earlier value and the patch is the later one, also after the patch was copied', () => {
	fc.assert(
		fc.property(values, values, (before, after) => {
			expect(patched(before, patchOf(before, after))).toEqual(after);
			expect(patched(before, structuredClone(patchOf(before, after)))).toEqual(after);
		})
	);
});

test('shares what did not change, and sends nothing of it', () => {
	const before = { site: { name: 'a' }, people: [{ id: 1 }, { id: 2 }, { id: 3 }], doors: [{ id: 4 }] };
	const after = { ...before, site: { name: 'a' }, people: before.people.with(1, { id: 5 }) };
	const patch = patchOf(before, after);
	expect(JSON.stringify(patch)).not.toMatch(/"id":[1234]/);
	const made = patched(before, patch) as typeof before;
	expect(made.people[0]).toBe(before.people[0]);
	expect(made.people[2]).toBe(before.people[2]);
	expect(made.doors).toBe(before.doors);
	expect(made.site).toBe(before.site);
	expect(made.people[1]).toEqual({ id: 5 });
});
