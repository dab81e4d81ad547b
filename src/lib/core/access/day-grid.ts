import { remembered } from '../kernel/remembered';
import type { CellPatterns } from './cell-patterns';

/**
 * The cells of a time line gathered into types of day, and each type cut into intervals in which no schedule opens or closes.
 *
 * The idea: whatever follows from schedules alone is the same in all cells of a type and constant in each interval, so two
 * years are a few hundred intervals. A fact about all of them is a row of bits, and a fact that follows from others follows
 * for 32 intervals at once. Invariant: the intervals of a type begin at a word of their own, so that a type is whole words; bits
 * beyond its intervals mean nothing. Our own.
 */

/** A type of day. */
export interface DayType {
	/** Beginnings of the intervals, in seconds from the beginning of the cell; the first is 0. */
	readonly bounds: readonly number[];
	readonly length: number;
	readonly firstWord: number;
	readonly endWord: number;
	/** True when the date is a listed holiday. */
	readonly isHoliday: boolean;
}

export class DayGrid {
	readonly types: readonly DayType[];
	/** The type of each cell, by their places. */
	readonly typeOfCell: Int32Array;
	/** How many words a row of bits has. */
	readonly words: number;
	readonly #cells: CellPatterns;
	/** One cell of each type. */
	readonly #cellOfType: readonly number[];

	/** A grid for schedules, given as their patterns in each cell. */
	constructor(cells: CellPatterns, schedules: readonly Int32Array[], isHoliday: (day: number) => boolean) {
		this.#cells = cells;
		const typeByText = new Map<string, number>();
		const cellOfType: number[] = [];
		this.typeOfCell = new Int32Array(cells.cells.length);
		cells.cells.forEach(({ day, from, to }, cell) => {
			let text = `${to - from} ${isHoliday(day)}`;
			for (const patterns of schedules) text += ` ${patterns[cell]}`;
			this.typeOfCell[cell] = remembered(typeByText, text, () => cellOfType.push(cell) - 1);
		});
		this.#cellOfType = cellOfType;
		let words = 0;
		this.types = cellOfType.map((cell) => {
			const { day, from, to } = cells.cells[cell] as { day: number; from: number; to: number };
			const bounds = new Set([0]);
			for (const id of new Set(schedules.map((patterns) => patterns[cell] as number))) {
				for (const at of cells.pattern(id)) if (at < to - from) bounds.add(at);
			}
			const firstWord = words;
			words += (bounds.size + 31) >>> 5;
			return {
				bounds: [...bounds].sort((a, b) => a - b),
				length: to - from,
				firstWord,
				endWord: words,
				isHoliday: isHoliday(day)
			};
		});
		this.words = words;
	}

	/** The intervals in which a schedule of the grid is open. */
	bitsOf(patterns: Int32Array): Uint32Array {
		const bits = new Uint32Array(this.words);
		this.#cellOfType.forEach((cell, place) => {
			const pattern = this.#cells.pattern(patterns[cell] as number);
			for (let at = 0; at < pattern.length; at += 2) {
				const { first, end } = this.intervalsOf(place, pattern[at] as number, pattern[at + 1] as number);
				for (let bit = first; bit < end; bit++) bits[bit >>> 5] = (bits[bit >>> 5] as number) | (1 << (bit & 31));
			}
		});
		return bits;
	}

	/** The bits of the intervals that share an instant with a stretch of a cell of a type, in seconds from its beginning. */
	intervalsOf(type: number, from: number, to: number): { first: number; end: number } {
		const { bounds, firstWord } = this.types[type] as DayType;
		let first = bounds.length - 1;
		while ((bounds[first] as number) > from) first--;
		let end = first;
		while (end < bounds.length && (bounds[end] as number) < to) end++;
		return { first: firstWord * 32 + first, end: firstWord * 32 + end };
	}
}
