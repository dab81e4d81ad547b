import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	type Span,
	type SpanSet,
	clip,
	contains,
	difference,
	doMeet,
	findSpanAt,
	firstEndingAfter,
	intersection,
	lengthOf,
	noSpans,
	spanSetOf,
	union
} from './spans';

/** How many minutes there are in the world of these tests. */
const size = 48;

const span = fc
	.tuple(fc.integer({ min: -4, max: size + 4 }), fc.integer({ min: -4, max: size + 4 }))
	.map(([from, to]): Span => ({ from, to }));
const anySpans = fc.array(span, { maxLength: 8 });
const anySet = anySpans.map(spanSetOf);

/** The same set, minute by minute. */
function minutesOf(spans: readonly Span[]): boolean[] {
	return Array.from({ length: size + 16 }, (_, index) => {
		const minute = index - 8;
		return spans.some(({ from, to }) => from <= minute && minute < to);
	});
}

function expectSet(set: SpanSet, minutes: readonly boolean[]): void {
	expect(minutesOf(set)).toEqual(minutes);
	set.forEach(({ from, to }, index) => {
		expect(from).toBeLessThan(to);
		// Neither overlapping nor touching: one set, one form.
		const before = set[index - 1];
		if (before) expect(before.to).toBeLessThan(from);
	});
}

function both(one: SpanSet, other: SpanSet, rule: (a: boolean, b: boolean) => boolean): boolean[] {
	const right = minutesOf(other);
	return minutesOf(one).map((is, index) => rule(is, right[index] ?? false));
}

describe('span sets are sets of minutes', () => {
	it('from spans in any order, overlapping, touching, empty or turned round', () => {
		fc.assert(fc.property(anySpans, (spans) => expectSet(spanSetOf(spans), minutesOf(spans))));
	});

	it('union, intersection, difference, clip', () => {
		fc.assert(
			fc.property(anySet, anySet, span, (a, b, range) => {
				expectSet(
					union(a, b),
					both(a, b, (x, y) => x || y)
				);
				expectSet(
					intersection(a, b),
					both(a, b, (x, y) => x && y)
				);
				expectSet(
					difference(a, b),
					both(a, b, (x, y) => x && !y)
				);
				expectSet(
					clip(a, range.from, range.to),
					both(a, [range], (x, y) => x && y)
				);
				expect(doMeet(a, b)).toBe(both(a, b, (x, y) => x && y).includes(true));
			}),
			{ numRuns: 300 }
		);
	});

	it('union of many', () => {
		fc.assert(
			fc.property(fc.array(anySet, { maxLength: 5 }), (sets) => expectSet(union(...sets), minutesOf(sets.flat())))
		);
	});

	it('length, and what holds at an instant', () => {
		fc.assert(
			fc.property(anySet, fc.integer({ min: -6, max: size + 6 }), (set, at) => {
				const minutes = minutesOf(set);
				const isIn = minutes[at + 8] ?? false;
				expect(lengthOf(set)).toBe(minutes.filter(Boolean).length);
				expect(contains(set, at)).toBe(isIn);
				const found = findSpanAt(set, at);
				expect(found).toEqual(isIn ? set.find(({ from, to }) => from <= at && at < to) : undefined);
				const index = set.findIndex(({ to }) => to > at);
				expect(firstEndingAfter(set, at)).toBe(index === -1 ? set.length : index);
			}),
			{ numRuns: 300 }
		);
	});
});

describe('the laws of sets', () => {
	it('idempotent, commutative, associative, distributive, De Morgan', () => {
		fc.assert(
			fc.property(anySet, anySet, anySet, (a, b, c) => {
				const world: SpanSet = [{ from: -100, to: 200 }];
				const not = (set: SpanSet): SpanSet => difference(world, set);
				expect(union(a, a)).toEqual(a);
				expect(intersection(a, a)).toEqual(a);
				expect(difference(a, a)).toEqual(noSpans);
				expect(union(a, b)).toEqual(union(b, a));
				expect(intersection(a, b)).toEqual(intersection(b, a));
				expect(union(union(a, b), c)).toEqual(union(a, union(b, c)));
				expect(intersection(intersection(a, b), c)).toEqual(intersection(a, intersection(b, c)));
				expect(intersection(a, union(b, c))).toEqual(union(intersection(a, b), intersection(a, c)));
				expect(not(union(a, b))).toEqual(intersection(not(a), not(b)));
				expect(not(not(a))).toEqual(a);
				expect(union(difference(a, b), intersection(a, b))).toEqual(a);
				expect(lengthOf(union(a, b)) + lengthOf(intersection(a, b))).toBe(lengthOf(a) + lengthOf(b));
			}),
			{ numRuns: 300 }
		);
	});
});
