import { GridBlocks, type CellInView } from './grid-blocks';
import type { CellPicture, GridWindow, Stretch, WindowRow } from './grid-window';

/** Fetches a window; rejects when it cannot be had. */
export type FetchWindow = (rows: Stretch, columns: Stretch) => Promise<GridWindow>;

export interface RowInView {
	readonly line: number;
	readonly row: WindowRow | undefined;
	readonly cells: readonly { readonly place: number; readonly cell: CellInView }[];
}

/**
 * Holds what has been fetched of a grid, in blocks, and fetches what comes into view: one request at a time, always for what
 * is in view when the one before has ended, so that a quick scroll does not ask for what it has passed.
 */
export class GridLoader {
	/** What is in view, with some more on each side. */
	rows = $state.raw<Stretch>({ from: 0, to: 0 });
	columns = $state.raw<Stretch>({ from: 0, to: 0 });
	/** What could not be fetched is told, and tried again at the next scroll. */
	hasFailed = $state(false);
	/** The rollout was changed in the meantime: the page must be asked for anew. */
	isStale = $state(false);
	#version = $state(0);
	#fetch: FetchWindow;
	#blocks = new GridBlocks();
	#isFetching = false;
	#revision = '';
	/** Counts grids, so that a late answer about another one is thrown away. */
	#grid = 0;

	constructor(fetch: FetchWindow) {
		this.#fetch = fetch;
	}

	/** Begins with a window that came with the page; everything else is forgotten. */
	begin(first: GridWindow, fetch: FetchWindow): void {
		this.#fetch = fetch;
		this.#grid++;
		this.#revision = first.revision;
		this.isStale = false;
		this.#isFetching = false;
		this.#blocks = new GridBlocks();
		this.rows = { from: first.top, to: first.top + first.rows.length };
		this.columns = { from: first.left, to: first.left + first.columns.length };
		this.#blocks.keep(first);
		this.#version++;
	}

	/** Says what is in view, and fetches what of it is not there yet. */
	look(rows: Stretch, columns: Stretch): void {
		if (rows.from !== this.rows.from || rows.to !== this.rows.to) this.rows = rows;
		if (columns.from !== this.columns.from || columns.to !== this.columns.to) this.columns = columns;
		void this.#fill();
	}

	readonly columnsInView = $derived.by(() => {
		void this.#version;
		return placesIn(this.columns).map((place) => ({ place, column: this.#blocks.column(place) }));
	});

	readonly rowsInView = $derived.by((): RowInView[] => {
		void this.#version;
		const places = placesIn(this.columns);
		return placesIn(this.rows).map((line) => ({
			line,
			row: this.#blocks.row(line),
			cells: places.map((place) => ({ place, cell: this.#blocks.cell(line, place) }))
		}));
	});

	/** The pictures that cells in view show. */
	readonly picturesInView = $derived.by(() => {
		return this.#blocks.picturesOf(this.rowsInView.flatMap(({ cells }) => cells.map(({ cell }) => cell)));
	});

	picture(number: number): CellPicture | undefined {
		return this.#blocks.picture(number);
	}

	async #fill(): Promise<void> {
		if (this.#isFetching) return;
		const missing = this.#blocks.missing(this.rows, this.columns);
		if (!missing) return;
		const grid = this.#grid;
		this.#isFetching = true;
		try {
			const window = await this.#fetch(missing.rows, missing.columns);
			if (grid !== this.#grid) return;
			if (window.revision !== this.#revision) {
				this.isStale = true;
				return;
			}
			this.#blocks.keep(window);
			this.#version++;
			this.hasFailed = JSON.stringify(this.#blocks.missing(this.rows, this.columns)) === JSON.stringify(missing);
			if (this.hasFailed) return;
		} catch {
			if (grid === this.#grid) this.hasFailed = true;
			return;
		} finally {
			if (grid === this.#grid) this.#isFetching = false;
		}
		await this.#fill();
	}
}

function placesIn({ from, to }: Stretch): number[] {
	return Array.from({ length: to - from }, (_, place) => from + place);
}
