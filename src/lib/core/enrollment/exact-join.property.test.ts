import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Part, join } from './exact-join';

const people = 4;
const sets = 2 ** people;

const parts = fc.array(
	fc.record({
		costs: fc.array(fc.option(fc.integer({ min: 0, max: 30 }), { nil: Infinity }), {
			minLength: sets,
			maxLength: sets
		}),
		copies: fc.integer({ min: 1, max: 3 })
	}),
	{ maxLength: 6 }
);

/** The least cost of a set, by trying every share of every copy in turn. */
function leastByHand(tables: readonly Float64Array[], set: number, from = 0): number {
	if (set === 0) return 0;
	const table = tables[from];
	if (!table) return Infinity;
	let least = leastByHand(tables, set, from + 1);
	for (let own = set; own > 0; own = (own - 1) & set) {
		least = Math.min(least, (table[own] as number) + leastByHand(tables, set & ~own, from + 1));
	}
	return least;
}

test('parts are joined as cheaply as by trying all ways, though only the cheapest for each share are looked at', () => {
	fc.assert(
		fc.property(parts, (terms) => {
			const all: Part[] = terms.map(({ costs, copies }) => ({
				table: Float64Array.from([0, ...costs.slice(1)]),
				copies
			}));
			const joint = join(all, people);
			const tables = all.flatMap(({ table, copies }) => Array.from({ length: copies }, () => table));
			for (let set = 0; set < sets; set++) {
				const cost = joint.cost[set] as number;
				expect(cost).toBe(leastByHand(tables, set));
				if (cost === Infinity) continue;
				const shares = joint.sharesOf(set);
				expect(shares.reduce((sum, share) => sum | share.set, 0)).toBe(set);
				expect(new Set(shares.map(({ part, copy }) => `${part} ${copy}`)).size).toBe(shares.length);
				expect(shares.reduce((sum, share) => sum + (all[share.part]?.table[share.set] as number), 0)).toBe(cost);
			}
		}),
		{ numRuns: 60 }
	);
});
