import type { CellBar, GridColumn } from './grid';

/**
 * The part of the sheet "Who can open what" that is looked at, as plain data, and the arithmetic of looking at a part: a
 * site of 20,000 people and 400 doors has eight million cells, of which a screen shows two hundred.
 */

/** A picture that many cells share. */
export interface CellPicture {
	/** When all people of the row may open all doors of the column. */
	readonly all: readonly CellBar[];
	/** When some of them, or some of the doors, only. */
	readonly some: readonly CellBar[];
	readonly words: string;
}

/** A cell: its picture by number. */
export interface WindowCell {
	readonly picture: number;
	/** People of the row who may open a door of the column at some time of the week. */
	readonly can: number;
	/** Differs from what it was; left out where it does not, and where nothing is compared. */
	readonly isChanged?: true;
}

export interface WindowRow {
	/** Name of the department, job or wave, or id of the person; empty for people who have none. */
	readonly key: string;
	readonly name: string;
	readonly note: string;
	/** People of the row. */
	readonly listed: number;
	/** Those of them employed on some day of the week. */
	readonly people: number;
}

/** A window of the grid: rows from `top`, columns from `left`, one list of cells for each row. */
export interface GridWindow {
	readonly revision: string;
	readonly top: number;
	readonly left: number;
	readonly rows: readonly WindowRow[];
	readonly columns: readonly GridColumn[];
	/** Null where a filter leaves a cell out. */
	readonly cells: readonly (readonly (WindowCell | null)[])[];
	/** The pictures of the cells, by number; numbers are the same in all windows of one grid. */
	readonly pictures: Readonly<Record<number, CellPicture>>;
}

/** Whole places from `from` up to and without `to`. */
export interface Stretch {
	readonly from: number;
	readonly to: number;
}

/** Rows and columns of one block: what is asked for and kept is whole blocks. */
export const blockRows = 32;
export const blockColumns = 24;
/** Most rows and columns of one window. */
export const mostRows = 4 * blockRows;
export const mostColumns = 4 * blockColumns;

/**
 * The places of a line of `count` equal parts that a view shows, with some more on both sides.
 * @param scrolled how far the view is scrolled, in the unit of `size`
 */
export function placesShown(scrolled: number, view: number, size: number, count: number, more: number): Stretch {
	const first = Math.floor(Math.max(0, scrolled) / size) - more;
	const last = Math.ceil((Math.max(0, scrolled) + Math.max(0, view)) / size) + more;
	const from = Math.min(Math.max(0, first), count);
	return { from, to: Math.max(from, Math.min(count, last)) };
}

/** The blocks that places lie in, by number. */
export function blocksOf({ from, to }: Stretch, size: number): number[] {
	if (to <= from) return [];
	const first = Math.floor(from / size);
	return Array.from({ length: Math.ceil(to / size) - first }, (_, place) => first + place);
}

/** How far a view must be scrolled so that a place is wholly in it: no further than needed. */
export function scrollTo(place: number, size: number, scrolled: number, view: number): number {
	const [start, end] = [place * size, (place + 1) * size];
	if (start < scrolled || view < size) return start;
	return end > scrolled + view ? end - view : scrolled;
}

/** A cell by its places; column -1 is the name of the row. */
export interface Place {
	readonly row: number;
	readonly column: number;
}

/**
 * Where a key leads in a grid, undefined for a key that leads nowhere.
 * @param rowsInView how far a page up or down goes
 * @source W3C, ARIA Authoring Practices Guide, grid pattern, keyboard interaction for data grids
 */
export function placeAfterKey(
	{ row, column }: Place,
	{ key, ctrlKey }: { readonly key: string; readonly ctrlKey: boolean },
	size: { readonly rows: number; readonly columns: number },
	rowsInView: number
): Place | undefined {
	const at = (toRow: number, toColumn: number): Place => ({
		row: Math.min(Math.max(0, toRow), size.rows - 1),
		column: Math.min(Math.max(-1, toColumn), size.columns - 1)
	});
	switch (key) {
		case 'ArrowRight':
			return at(row, column + 1);
		case 'ArrowLeft':
			return at(row, column - 1);
		case 'ArrowDown':
			return at(row + 1, column);
		case 'ArrowUp':
			return at(row - 1, column);
		case 'Home':
			return at(ctrlKey ? 0 : row, -1);
		case 'End':
			return at(ctrlKey ? size.rows - 1 : row, size.columns - 1);
		case 'PageDown':
			return at(row + Math.max(1, rowsInView), column);
		case 'PageUp':
			return at(row - Math.max(1, rowsInView), column);
		default:
			return undefined;
	}
}
