import fc from 'fast-check';
import { expect, test } from 'vitest';
import { hatchPath } from './hatch';
import { linear, overlaps } from './scale';

const ends = (path: string) =>
	[...path.matchAll(/M(-?[\d.]+) (-?[\d.]+)L(-?[\d.]+) (-?[\d.]+)/g)].map((match) => match.slice(1).map(Number));

test('the lines of a square', () => {
	expect(hatchPath([{ x: 0, y: 0, width: 4, height: 4 }], 4)).toBe('M0 4L4 0');
	expect(hatchPath([{ x: 0, y: 0, width: 4, height: 4 }], 2)).toBe('M0 2L2 0M0 4L4 0M2 4L4 2');
});

test('every line stays inside its rectangle and slants by 45 degrees', () => {
	const side = fc.integer({ min: 1, max: 200 });
	fc.assert(
		fc.property(
			fc.integer({ min: -50, max: 50 }),
			fc.integer({ min: -50, max: 50 }),
			side,
			side,
			(x, y, width, height) => {
				const lines = ends(hatchPath([{ x, y, width, height }], 5));
				for (const [fromX = NaN, fromY = NaN, toX = NaN, toY = NaN] of lines) {
					expect(fromX + fromY).toBeCloseTo(toX + toY, 6);
					for (const across of [fromX, toX]) expect(across >= x && across <= x + width).toBe(true);
					for (const down of [fromY, toY]) expect(down >= y && down <= y + height).toBe(true);
				}
				expect(lines.length).toBeGreaterThanOrEqual(Math.floor((width + height - 1) / 5) - 1);
			}
		)
	);
});

test('two rectangles side by side hatch on: lines that end on the common edge meet', () => {
	const left = ends(hatchPath([{ x: 0, y: 0, width: 10, height: 10 }], 4));
	const right = ends(hatchPath([{ x: 10, y: 0, width: 10, height: 10 }], 4));
	const leftAtEdge = left.filter(([, , toX]) => toX === 10).map((line) => line[3]);
	const rightAtEdge = right.filter(([fromX]) => fromX === 10).map((line) => line[1]);
	expect(leftAtEdge.length).toBeGreaterThan(1);
	expect(leftAtEdge.every((down) => rightAtEdge.includes(down))).toBe(true);
});

test('a scale maps ends onto ends', () => {
	const scale = linear([0, 1440], [10, 490]);
	expect([scale(0), scale(720), scale(1440)]).toEqual([10, 250, 490]);
	expect(linear([5, 5], [1, 2])(5)).toBe(1);
});

test('rectangles that touch do not overlap', () => {
	const at = (x: number) => ({ x, y: 0, width: 10, height: 10 });
	expect(overlaps(at(0), at(10))).toBe(false);
	expect(overlaps(at(0), at(9.5))).toBe(true);
});
