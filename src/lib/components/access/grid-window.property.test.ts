import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { GridBlocks } from './grid-blocks';
import {
	type GridWindow,
	type Stretch,
	blockColumns,
	blockRows,
	blocksOf,
	mostColumns,
	mostRows,
	placeAfterKey,
	placesShown,
	scrollTo
} from './grid-window';

const size = fc.integer({ min: 20, max: 90 });
const count = fc.integer({ min: 0, max: 20_000 });

test('every place of which a part is in view is shown, and never more than the view holds and the margin', () => {
	fc.assert(
		fc.property(
			fc.nat(1_800_000),
			fc.integer({ min: 0, max: 2000 }),
			size,
			count,
			fc.nat(8),
			(at, view, one, n, more) => {
				const { from, to } = placesShown(at, view, one, n, more);
				expect(from).toBeGreaterThanOrEqual(0);
				expect(to).toBeLessThanOrEqual(n);
				expect(to - from).toBeLessThanOrEqual(Math.ceil(view / one) + 1 + 2 * more);
				const first = Math.floor(at / one);
				for (let place = first; place * one < at + view && place < n; place++) {
					expect(place >= from && place < to).toBe(true);
				}
			}
		)
	);
});

test('a place scrolled to is wholly in view, and what was in view is not scrolled', () => {
	fc.assert(
		fc.property(
			fc.nat(20_000),
			size,
			fc.nat(1_000_000),
			fc.integer({ min: 100, max: 2000 }),
			(place, one, at, view) => {
				const to = scrollTo(place, one, at, view);
				expect(place * one).toBeGreaterThanOrEqual(to);
				expect((place + 1) * one).toBeLessThanOrEqual(to + view);
				if (place * one >= at && (place + 1) * one <= at + view) expect(to).toBe(at);
			}
		)
	);
});

describe('keys', () => {
	const grid = { rows: 100, columns: 10 };
	const after = (key: string, row: number, column: number, ctrlKey = false) =>
		placeAfterKey({ row, column }, { key, ctrlKey }, grid, 12);

	test('lead to the neighbor, the ends of the row, a page on, and the corners', () => {
		expect(after('ArrowRight', 5, 3)).toEqual({ row: 5, column: 4 });
		expect(after('ArrowLeft', 5, 0)).toEqual({ row: 5, column: -1 });
		expect(after('ArrowDown', 5, 3)).toEqual({ row: 6, column: 3 });
		expect(after('ArrowUp', 5, 3)).toEqual({ row: 4, column: 3 });
		expect(after('Home', 5, 3)).toEqual({ row: 5, column: -1 });
		expect(after('End', 5, 3)).toEqual({ row: 5, column: 9 });
		expect(after('PageDown', 5, 3)).toEqual({ row: 17, column: 3 });
		expect(after('PageUp', 5, 3)).toEqual({ row: 0, column: 3 });
		expect(after('Home', 5, 3, true)).toEqual({ row: 0, column: -1 });
		expect(after('End', 5, 3, true)).toEqual({ row: 99, column: 9 });
	});

	test('stay inside of the grid, and leave other keys alone', () => {
		expect(after('ArrowUp', 0, -1)).toEqual({ row: 0, column: -1 });
		expect(after('ArrowLeft', 0, -1)).toEqual({ row: 0, column: -1 });
		expect(after('ArrowRight', 99, 9)).toEqual({ row: 99, column: 9 });
		expect(after('PageDown', 95, 2)).toEqual({ row: 99, column: 2 });
		expect(after('Enter', 5, 3)).toBeUndefined();
		expect(after('a', 5, 3)).toBeUndefined();
	});
});

/** A window of a made-up grid in which each cell has a number of its own. */
function windowOf(rows: Stretch, columns: Stretch, size: { rows: number; columns: number }): GridWindow {
	const places = ({ from, to }: Stretch, most: number) =>
		Array.from({ length: Math.max(0, Math.min(to, most) - from) }, (_, place) => from + place);
	const [lines, across] = [places(rows, size.rows), places(columns, size.columns)];
	return {
		revision: 'r',
		top: rows.from,
		left: columns.from,
		rows: lines.map((line) => ({ key: `${line}`, name: `${line}`, note: '', listed: 1, people: 1 })),
		columns: across.map((place) => ({ id: `${place}`, name: `${place}`, doors: 1 })),
		cells: lines.map((line) => across.map((place) => ({ picture: 0, can: line * 1000 + place }))),
		pictures: { 0: { all: [], some: [], words: 'not at all' } }
	};
}

test('whatever is looked at, one after the other, asking for what is missing fills the view with the right cells', () => {
	const views = fc.array(
		fc.tuple(fc.nat(2000), fc.integer({ min: 1, max: 60 }), fc.nat(500), fc.integer({ min: 1, max: 40 })),
		{ minLength: 1, maxLength: 12 }
	);
	fc.assert(
		fc.property(views, fc.integer({ min: 1, max: 2000 }), fc.integer({ min: 1, max: 500 }), (all, rows, columns) => {
			const blocks = new GridBlocks();
			for (const [top, height, left, width] of all) {
				const seen = {
					rows: { from: Math.min(top, rows - 1), to: Math.min(top + height, rows) },
					columns: { from: Math.min(left, columns - 1), to: Math.min(left + width, columns) }
				};
				for (let asked = 0; ; asked++) {
					const missing = blocks.missing(seen.rows, seen.columns);
					if (!missing) break;
					expect(asked).toBeLessThan(9);
					expect(missing.rows.to - missing.rows.from).toBeLessThanOrEqual(mostRows);
					expect(missing.columns.to - missing.columns.from).toBeLessThanOrEqual(mostColumns);
					blocks.keep(windowOf(missing.rows, missing.columns, { rows, columns }));
				}
				for (let line = seen.rows.from; line < seen.rows.to; line++) {
					expect(blocks.row(line)?.key).toBe(`${line}`);
					for (let place = seen.columns.from; place < seen.columns.to; place++) {
						if (blocks.cell(line, place)?.can !== line * 1000 + place) throw new Error(`${line} ${place} is wrong`);
					}
				}
			}
		}),
		{ numRuns: 40 }
	);
});

test('blocks of places', () => {
	expect(blocksOf({ from: 0, to: 0 }, blockRows)).toEqual([]);
	expect(blocksOf({ from: 31, to: 33 }, blockRows)).toEqual([0, 1]);
	expect(blocksOf({ from: blockColumns, to: 2 * blockColumns }, blockColumns)).toEqual([1]);
});
