import type { SpanSet } from '../calendar/spans';
import type { DateSpan } from '../calendar/zone';
import { remembered } from '../kernel/remembered';

/**
 * The time line cut into cells of one local date each, and span sets written as one pattern per cell: what a schedule does on
 * a Monday is the same pattern on nearly every Monday, so a year of spans becomes a handful of patterns. Two cells with the
 * same pattern hold the same spans relative to their beginnings.
 */
export class CellPatterns {
	readonly cells: readonly DateSpan[];
	readonly #idByText = new Map<string, number>([['', 0]]);
	readonly #patterns: (readonly number[])[] = [[]];
	readonly #meetings = new Map<number, boolean>();

	constructor(cells: readonly DateSpan[]) {
		this.cells = cells;
	}

	/** The pattern of a span set in each cell; 0 where it holds nothing of the cell. */
	of(spans: SpanSet): Int32Array {
		const ids = new Int32Array(this.cells.length);
		let next = 0;
		this.cells.forEach((cell, place) => {
			while (next < spans.length && (spans[next]?.to ?? Infinity) <= cell.from) next++;
			const pattern: number[] = [];
			for (let at = next; at < spans.length; at++) {
				const span = spans[at];
				if (!span || span.from >= cell.to) break;
				pattern.push(Math.max(span.from, cell.from) - cell.from, Math.min(span.to, cell.to) - cell.from);
			}
			ids[place] = this.idOf(pattern);
		});
		return ids;
	}

	/** The spans of a pattern: start, end, start, end, in seconds from the beginning of the cell. */
	pattern(id: number): readonly number[] {
		return this.#patterns[id] ?? [];
	}

	/** True when two patterns share an instant. */
	doPatternsMeet(one: number, other: number): boolean {
		if (one === other) return true;
		return remembered(this.#meetings, one * 0x100000 + other, () => {
			const [a, b] = [this.pattern(one), this.pattern(other)];
			for (let i = 0; i < a.length; i += 2) {
				for (let j = 0; j < b.length; j += 2) {
					if ((a[i] as number) < (b[j + 1] as number) && (b[j] as number) < (a[i + 1] as number)) return true;
				}
			}
			return false;
		});
	}

	/** The place of the cell that holds an instant inside the time line. */
	cellAt(at: number): number {
		let low = 0;
		let high = this.cells.length - 1;
		while (low < high) {
			const middle = (low + high + 1) >>> 1;
			if ((this.cells[middle] as DateSpan).from <= at) low = middle;
			else high = middle - 1;
		}
		return low;
	}

	/** The number of a pattern: spans in order that do not touch, as `pattern` gives them; the same for equal ones. */
	idOf(pattern: readonly number[]): number {
		const text = pattern.join();
		const known = this.#idByText.get(text);
		if (known !== undefined) return known;
		this.#idByText.set(text, this.#patterns.length);
		return this.#patterns.push(pattern) - 1;
	}
}
