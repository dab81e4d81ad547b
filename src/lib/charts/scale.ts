/**
 * Maps one range of numbers onto another, straight. A domain of no length maps to the start of the range.
 * @example linear([0, 1440], [0, 480])(720) // 240
 */
export function linear(domain: readonly [number, number], range: readonly [number, number]): (value: number) => number {
	const [from, to] = domain;
	const perUnit = to === from ? 0 : (range[1] - range[0]) / (to - from);
	return (value) => range[0] + (value - from) * perUnit;
}

/** A coordinate as it is written into a path: at most two decimals, so that pages stay small. */
export function rounded(value: number): number {
	return Math.round(value * 100) / 100;
}

/** A rectangle by its upper left corner, in the units of the drawing. */
export interface Rect {
	readonly x: number;
	readonly y: number;
	readonly width: number;
	readonly height: number;
}

/** True when two rectangles share an area; touching edges do not count. */
export function overlaps(a: Rect, b: Rect): boolean {
	return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
