import fc from 'fast-check';
import { expect, test } from 'vitest';
import { largestFlow } from './flow';

const puzzles = fc
	.record({
		supplies: fc.array(fc.nat(9), { minLength: 1, maxLength: 7 }),
		demands: fc.array(fc.tuple(fc.nat(12), fc.nat(6), fc.nat(4), fc.nat(3), fc.nat(3)), { maxLength: 6 })
	})
	.map(({ supplies, demands }) => ({
		supplies,
		demands: demands.map(([demand]) => demand),
		// One or two ranges, apart and inside of the supplies.
		ranges: demands.map(([, from, length, gap, more]) => {
			const cut = (at: number): number => Math.min(at, supplies.length);
			const [a, b] = [cut(from), cut(from + length)];
			const [c, d] = [cut(b + gap + 1), cut(b + gap + 1 + more)];
			return [...(a < b ? [a, b] : []), ...(c < d ? [c, d] : [])];
		})
	}));

/** By the theorem of max flow and min cut: the most by which some demands together exceed what they may draw on. */
function unmetByHand({
	supplies,
	demands,
	ranges
}: {
	supplies: number[];
	demands: number[];
	ranges: number[][];
}): number {
	let most = 0;
	for (let set = 0; set < 2 ** demands.length; set++) {
		const reached = new Set<number>();
		let asked = 0;
		demands.forEach((demand, index) => {
			if (((set >>> index) & 1) === 0) return;
			asked += demand;
			const own = ranges[index] ?? [];
			for (let at = 0; at < own.length; at += 2) {
				for (let supply = own[at] as number; supply < (own[at + 1] as number); supply++) reached.add(supply);
			}
		});
		most = Math.max(most, asked - [...reached].reduce((sum, supply) => sum + (supplies[supply] as number), 0));
	}
	return most;
}

test('what no flow meets is the largest excess of any set of demands (Ford and Fulkerson, 1956), and the cut is such a set', () => {
	fc.assert(
		fc.property(puzzles, (puzzle) => {
			const { unmet, cut } = largestFlow(puzzle, () => false) ?? { unmet: NaN, cut: [] };
			expect(unmet).toBe(unmetByHand(puzzle));
			const only = {
				...puzzle,
				demands: puzzle.demands.map((demand, index) => (cut.includes(index) ? demand : 0))
			};
			expect(unmetByHand(only)).toBe(unmet);
		}),
		{ numRuns: 2000 }
	);
});
