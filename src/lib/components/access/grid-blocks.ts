import type { GridColumn } from './grid';
import {
	type CellPicture,
	type GridWindow,
	type Stretch,
	type WindowCell,
	type WindowRow,
	blockColumns,
	blockRows,
	blocksOf,
	mostColumns,
	mostRows
} from './grid-window';

/** A cell in view: undefined while it is on its way, null where a filter leaves it out. */
export type CellInView = WindowCell | null | undefined;

/** Blocks kept at most; those that came longest ago make room. */
const mostBlocks = 120;

/** What has been fetched of a grid, in blocks of rows and columns. */
export class GridBlocks {
	readonly #blocks = new Map<string, readonly (readonly (WindowCell | null)[])[]>();
	readonly #rows = new Map<number, WindowRow>();
	readonly #columns = new Map<number, GridColumn>();
	readonly #pictures = new Map<number, CellPicture>();

	row(line: number): WindowRow | undefined {
		return this.#rows.get(line);
	}

	column(place: number): GridColumn | undefined {
		return this.#columns.get(place);
	}

	picture(number: number): CellPicture | undefined {
		return this.#pictures.get(number);
	}

	cell(line: number, place: number): CellInView {
		const block = this.#blocks.get(`${Math.floor(line / blockRows)} ${Math.floor(place / blockColumns)}`);
		return block?.[line % blockRows]?.[place % blockColumns];
	}

	/** The pictures of some cells, each once, with their numbers. */
	picturesOf(cells: Iterable<CellInView>): { number: number; picture: CellPicture }[] {
		const numbers = new Set<number>();
		for (const cell of cells) if (cell) numbers.add(cell.picture);
		return [...numbers].flatMap((number) => {
			const picture = this.#pictures.get(number);
			return picture ? [{ number, picture }] : [];
		});
	}

	/** The smallest rectangle of whole blocks around what of a view is not there, as far as one request may ask for it. */
	missing(rows: Stretch, columns: Stretch): { rows: Stretch; columns: Stretch } | undefined {
		const missing = blocksOf(rows, blockRows).flatMap((down) =>
			blocksOf(columns, blockColumns)
				.filter((across) => !this.#blocks.has(`${down} ${across}`))
				.map((across) => ({ down, across }))
		);
		if (missing.length === 0) return undefined;
		const spread = (numbers: number[], size: number, most: number): Stretch => {
			const from = Math.min(...numbers) * size;
			return { from, to: Math.min((Math.max(...numbers) + 1) * size, from + most) };
		};
		const [downs, acrosses] = [missing.map(({ down }) => down), missing.map(({ across }) => across)];
		return { rows: spread(downs, blockRows, mostRows), columns: spread(acrosses, blockColumns, mostColumns) };
	}

	/** Takes in a window that begins at whole blocks. */
	keep(window: GridWindow): void {
		window.rows.forEach((row, place) => this.#rows.set(window.top + place, row));
		window.columns.forEach((column, place) => this.#columns.set(window.left + place, column));
		for (const [number, picture] of Object.entries(window.pictures)) this.#pictures.set(Number(number), picture);
		const lines = { from: window.top, to: window.top + Math.max(1, window.rows.length) };
		const places = { from: window.left, to: window.left + Math.max(1, window.columns.length) };
		for (const down of blocksOf(lines, blockRows)) {
			for (const across of blocksOf(places, blockColumns)) {
				const [line, place] = [down * blockRows - window.top, across * blockColumns - window.left];
				const cells = window.cells.slice(line, line + blockRows).map((row) => row.slice(place, place + blockColumns));
				this.#blocks.delete(`${down} ${across}`);
				this.#blocks.set(`${down} ${across}`, cells);
			}
		}
		for (const oldest of this.#blocks.keys()) {
			if (this.#blocks.size <= mostBlocks) break;
			this.#blocks.delete(oldest);
		}
	}
}
