import { expect, test } from 'vitest';
import { intervalRowsOf } from './interval-rows';

const row = { key: 'a', label: 'A', prior: 8, planned: 8, points: [6, 10, 10], estimate: 8.5, low: 7, high: 10 };

test('everything lies on one scale from zero, in round steps', () => {
	const picture = intervalRowsOf([row, { ...row, key: 'b', points: [] }], [{ label: 'book', from: 7.5, to: 8 }], 1000);
	expect(picture.ticks.map(({ value, x }) => [value, x])).toEqual(
		Array.from({ length: 11 }, (_, tick) => [tick, tick * 100])
	);
	expect(picture.rows[0]).toMatchObject({ prior: 800, planned: 800, estimate: 850, low: 700, high: 1000 });
	expect(picture.published).toEqual([{ label: 'book', x: 750, width: 50 }]);
	expect(picture.rows[1]?.y).toBeGreaterThan(picture.rows[0]?.y ?? Infinity);
});

test('points that fall together are stacked, and stay within their row however many they are', () => {
	const [first] = intervalRowsOf([row], [], 1000).rows;
	const [six, ten, again] = first?.points ?? [];
	expect(six?.y).toBe(ten?.y);
	expect(again?.y).toBeGreaterThan(ten?.y ?? Infinity);
	const many = intervalRowsOf([{ ...row, points: Array.from({ length: 500 }, () => 9) }], [], 1000);
	expect(Math.max(...(many.rows[0]?.points ?? []).map(({ y }) => y))).toBeLessThan(many.height);
});

test('a scale of shares has steps below one, and nothing at all has a scale', () => {
	const share = { ...row, prior: 0.08, planned: 0.08, points: [0.1], estimate: 0.09, low: 0.04, high: 0.16 };
	expect(intervalRowsOf([share], [], 100).ticks.at(-1)?.value).toBeCloseTo(0.16, 12);
	expect(intervalRowsOf([], [], 100)).toMatchObject({ rows: [], height: 0 });
});
