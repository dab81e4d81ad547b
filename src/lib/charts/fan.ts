import { linear, rounded } from './scale';

/** A day of the fan: how many, in the lower, the middle and the upper of the futures. */
export interface FanDay {
	readonly date: string;
	readonly p10: number;
	readonly p50: number;
	readonly p90: number;
}

/** A fan over time in the units of the drawing. */
export interface Fan {
	/** The band from P10 to P90, and the line P50; steps, since the count holds until the next day. */
	readonly band: string;
	readonly line: string;
	readonly dates: readonly { readonly date: string; readonly x: number }[];
	readonly levels: readonly { readonly count: number; readonly y: number }[];
	/** Where a date lies, also between the days of the fan; undefined outside of them. */
	xOf(date: string): number | undefined;
	readonly most: number;
}

/** Days from the first to the last, by the calendar, as a fan of `width` by `height` with zero at the bottom. */
export function fanOf(days: readonly FanDay[], everybody: number, width: number, height: number): Fan {
	const at = (date: string): number => Date.parse(`${date}T00:00Z`) / 86_400_000;
	const first = at(days[0]?.date ?? '1970-01-01');
	const last = at(days.at(-1)?.date ?? '1970-01-01') + 1;
	const most = Math.max(everybody, ...days.map(({ p90 }) => p90), 1);
	const x = linear([first, last], [0, width]);
	const y = linear([0, most], [height, 0]);
	const upper = days.map(({ date, p90 }) => [rounded(x(at(date) + 1)), rounded(y(p90))] as const);
	const lower = days.map(({ date, p10 }) => [rounded(x(at(date) + 1)), rounded(y(p10))] as const);
	const middle = days.map(({ date, p50 }) => [rounded(x(at(date) + 1)), rounded(y(p50))] as const);
	const path = (points: readonly (readonly [number, number])[]) => points.map(([px, py]) => `${px} ${py}`).join('L');
	const step = Math.max(1, Math.ceil(days.length / 10));
	return {
		band: days.length === 0 ? '' : `M${path(upper)}L${path(lower.toReversed())}Z`,
		line: days.length === 0 ? '' : `M${path(middle)}`,
		dates: days.flatMap(({ date }, place) => (place % step === 0 ? [{ date, x: rounded(x(at(date) + 1)) }] : [])),
		levels: [0, 0.25, 0.5, 0.75, 1].map((share) => ({ count: Math.round(share * most), y: rounded(y(share * most)) })),
		xOf: (date) => (at(date) + 1 < first || at(date) + 1 > last ? undefined : rounded(x(at(date) + 1))),
		most
	};
}
