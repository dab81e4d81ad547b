import { type Rect, rounded } from './scale';

/**
 * Hatching of rectangles as one path of slanted lines, `spacing` apart across and down. The lines lie on one grid of the
 * drawing, so that neighboring rectangles hatch on. Drawn as lines and not as a pattern: a pattern needs an id of its own
 * on the page, and some printers leave it out.
 */
export function hatchPath(rects: readonly Rect[], spacing: number): string {
	const lines: string[] = [];
	for (const { x, y, width, height } of rects) {
		const [right, bottom] = [x + width, y + height];
		// Along each line x + y is the same.
		for (let sum = Math.ceil((x + y) / spacing) * spacing; sum < right + bottom; sum += spacing) {
			const from = Math.max(x, sum - bottom);
			const to = Math.min(right, sum - y);
			if (to > from) lines.push(`M${rounded(from)} ${rounded(sum - from)}L${rounded(to)} ${rounded(sum - to)}`);
		}
	}
	return lines.join('');
}
