import { linear, rounded } from './scale';

/** An estimate with what it came from, all in one unit. */
export interface IntervalRow {
	readonly key: string;
	readonly label: string;
	/** What was assumed, and what plans go by where that is another thing. */
	readonly prior: number;
	readonly planned?: number;
	readonly points: readonly number[];
	readonly estimate: number;
	readonly low: number;
	readonly high: number;
}

/** A range that was published. */
export interface PublishedRange {
	readonly label: string;
	readonly from: number;
	readonly to: number;
}

/** Rows of dots and intervals on one scale, in the units of the drawing. */
export interface IntervalPicture {
	readonly rows: readonly {
		readonly key: string;
		readonly label: string;
		readonly y: number;
		readonly prior: number;
		readonly planned: number | null;
		readonly estimate: number;
		readonly low: number;
		readonly high: number;
		readonly points: readonly { readonly x: number; readonly y: number }[];
	}[];
	readonly published: readonly { readonly label: string; readonly x: number; readonly width: number }[];
	readonly ticks: readonly { readonly value: number; readonly x: number }[];
	readonly height: number;
}

const perRow = 78;
const wide = 7;
const deepest = 24;

/** Lays rows out below each other from zero on; points that fall together are stacked under the interval, closer where they are many. */
export function intervalRowsOf(
	rows: readonly IntervalRow[],
	published: readonly PublishedRange[],
	width: number
): IntervalPicture {
	const values = [...rows.flatMap((row) => [row.high, row.prior, row.planned ?? 0, ...row.points])];
	const step = stepFor(Math.max(...values, ...published.map(({ to }) => to), 1e-6));
	const count = Math.ceil(Math.max(...values, ...published.map(({ to }) => to), step) / step - 1e-9);
	const x = linear([0, count * step], [0, width]);
	return {
		rows: rows.map((row, place) => {
			const y = place * perRow + 34;
			return {
				key: row.key,
				label: row.label,
				y,
				prior: rounded(x(row.prior)),
				planned: row.planned === undefined ? null : rounded(x(row.planned)),
				estimate: rounded(x(row.estimate)),
				low: rounded(x(row.low)),
				high: rounded(x(row.high)),
				points: stacked(row.points.map(x), y + 12)
			};
		}),
		published: published.map(({ label, from, to }) => ({
			label,
			x: rounded(x(from)),
			width: rounded(Math.max(2, x(to) - x(from)))
		})),
		ticks: Array.from({ length: count + 1 }, (_, tick) => ({ value: tick * step, x: rounded(x(tick * step)) })),
		height: rows.length * perRow
	};
}

function stacked(xs: readonly number[], top: number): { x: number; y: number }[] {
	const columns = new Map<number, number>();
	for (const x of xs) columns.set(Math.round(x / wide), (columns.get(Math.round(x / wide)) ?? 0) + 1);
	const most = Math.max(1, ...columns.values());
	const step = Math.min(wide, deepest / most);
	const used = new Map<number, number>();
	return xs.map((x) => {
		const column = Math.round(x / wide);
		const before = used.get(column) ?? 0;
		used.set(column, before + 1);
		return { x: rounded(x), y: rounded(top + before * step) };
	});
}

/** A step of 1, 2 or 5 times a power of ten with at most ten of them. */
function stepFor(most: number): number {
	const power = 10 ** Math.floor(Math.log10(most / 10));
	return power * ([1, 2, 5, 10].find((one) => (one * power * 10) / most >= 1 - 1e-9) ?? 10);
}
