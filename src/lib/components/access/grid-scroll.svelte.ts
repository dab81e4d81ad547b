import { tick } from 'svelte';
import { GridLoader } from './grid-loader.svelte';
import { type GridWindow, type Place, type Stretch, placeAfterKey, placesShown, scrollTo } from './grid-window';

/** What a grid is made of, as its component was given it. */
export interface GridSource {
	readonly size: { readonly rows: number; readonly columns: number };
	readonly first: GridWindow;
	/** Tells grids apart: another one begins at its first window. */
	readonly query: string;
	readonly fetchWindow: (rows: Stretch, columns: Stretch) => Promise<GridWindow>;
	/** The cell whose reason is shown; -1 where none is. */
	readonly current: Place;
	/** Called when scrolling has come to rest, with the place in the corner. */
	readonly onRest: (corner: Place) => void;
}

/** The id of a cell on the page; column -1 is the name of the row. */
export function cellId({ row, column }: Place): string {
	return column < 0 ? `row-${row}` : `cell-${row}-${column}`;
}

/**
 * Scrolls a grid of which only what is in view is on the page, and walks it by key. One cell is the grid's only tab stop; while
 * it is scrolled out of view, the box is.
 */
export class GridScroll {
	readonly loader: GridLoader;
	/** With script at work the whole grid can be scrolled; without it, the pages of it follow one another. */
	isLive = $state(false);
	active = $state<Place>({ row: 0, column: 0 });
	#unit = $state(16);
	#isNarrow = $state(false);
	/** Measures in rem: fixed, so that a place follows from how far one has scrolled. */
	readonly rem = $derived({ name: this.#isNarrow ? 7.5 : 11.5, column: 5, row: 4.25, head: 4.25, picture: 4.25 });
	readonly #source: () => GridSource;
	#box: HTMLElement | undefined;
	#begun: { readonly first: GridWindow; readonly query: string };
	#rest: ReturnType<typeof setTimeout> | undefined;
	#isLooking = false;
	/** A cell that is still on its way gets the focus as soon as it is there. */
	#isAwaited = false;

	constructor(source: () => GridSource) {
		this.#source = source;
		const { first, query, fetchWindow, current } = source();
		this.loader = new GridLoader(fetchWindow);
		this.loader.begin(first, fetchWindow);
		this.#begun = { first, query };
		this.active = current.row >= 0 ? current : { row: first.top, column: first.left };
	}

	/** Takes what the page has brought anew; the place is kept as long as it is the same grid. */
	renew(): void {
		const { first, query, fetchWindow } = this.#source();
		if (first === this.#begun.first && query === this.#begun.query) return;
		const isOther = query !== this.#begun.query;
		this.#begun = { first, query };
		this.loader.begin(first, fetchWindow);
		if (isOther) this.active = { row: first.top, column: first.left };
		if (this.isLive) void tick().then(() => (isOther ? this.#begin() : this.#look()));
	}

	/** Brings the box of the grid to life. */
	readonly attach = (box: HTMLElement): (() => void) => {
		this.#box = box;
		this.#unit = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
		this.isLive = true;
		const watcher = new ResizeObserver(() => {
			this.#isNarrow = box.clientWidth < 480;
			this.#look();
		});
		watcher.observe(box);
		const [onscroll, onkeydown] = [() => this.#scrolled(), (event: KeyboardEvent) => void this.#pressed(event)];
		box.addEventListener('scroll', onscroll, { passive: true });
		box.addEventListener('keydown', onkeydown);
		void tick().then(() => this.#begin());
		return () => {
			watcher.disconnect();
			box.removeEventListener('scroll', onscroll);
			box.removeEventListener('keydown', onkeydown);
			clearTimeout(this.#rest);
		};
	};

	/** Gives the focus to the cell that was waited for; to be called when cells have come. */
	arrived(): void {
		const focused = document.activeElement;
		if (this.#isAwaited && (focused === document.body || this.#box?.contains(focused))) this.#focusActive();
	}

	isActive(row: number, column: number): boolean {
		return this.active.row === row && this.active.column === column;
	}

	readonly isActiveInView = $derived.by(() => {
		const { row, column } = this.active;
		const { rows, columns } = this.loader;
		return row >= rows.from && row < rows.to && (column < 0 || (column >= columns.from && column < columns.to));
	});

	#begin(): void {
		const { first, current } = this.#source();
		this.#box?.scrollTo(first.left * this.rem.column * this.#unit, first.top * this.rem.row * this.#unit);
		if (current.row >= 0) this.#show(current);
		this.#look();
	}

	/** What of the scrolled box shows cells, in pixels. */
	#view() {
		const { clientWidth = 0, clientHeight = 0, scrollLeft = 0, scrollTop = 0 } = this.#box ?? {};
		return {
			scrollLeft,
			scrollTop,
			width: Math.max(0, clientWidth - this.rem.name * this.#unit),
			height: Math.max(0, clientHeight - this.rem.head * this.#unit)
		};
	}

	#look(): void {
		const { scrollLeft, scrollTop, width, height } = this.#view();
		const { rows, columns } = this.#source().size;
		this.loader.look(
			placesShown(scrollTop, height, this.rem.row * this.#unit, rows, 6),
			placesShown(scrollLeft, width, this.rem.column * this.#unit, columns, 3)
		);
		// What has the focus must not be taken away with it.
		if (!this.isActiveInView && this.#box?.contains(document.activeElement)) this.#box.focus({ preventScroll: true });
	}

	#scrolled(): void {
		if (!this.#isLooking) {
			this.#isLooking = true;
			requestAnimationFrame(() => {
				this.#isLooking = false;
				this.#look();
			});
		}
		clearTimeout(this.#rest);
		this.#rest = setTimeout(() => {
			const { scrollLeft, scrollTop } = this.#view();
			const [row, column] = [scrollTop / (this.rem.row * this.#unit), scrollLeft / (this.rem.column * this.#unit)];
			this.#source().onRest({ row: Math.round(row), column: Math.round(column) });
		}, 500);
	}

	/** Scrolls a place into view, no further than needed. */
	#show({ row, column }: Place): void {
		const { scrollLeft, scrollTop, width, height } = this.#view();
		this.#box?.scrollTo(
			column < 0 ? scrollLeft : scrollTo(column, this.rem.column * this.#unit, scrollLeft, width),
			scrollTo(row, this.rem.row * this.#unit, scrollTop, height)
		);
		this.#look();
	}

	async #pressed(event: KeyboardEvent): Promise<void> {
		const { size } = this.#source();
		if (event.altKey || event.metaKey || event.shiftKey || size.rows === 0) return;
		const rowsInView = Math.floor(this.#view().height / (this.rem.row * this.#unit));
		const next = placeAfterKey(this.active, event, size, rowsInView);
		if (!next) return;
		event.preventDefault();
		this.active = next;
		this.#show(next);
		await tick();
		this.#focusActive();
	}

	#focusActive(): void {
		const target = document.getElementById(cellId(this.active))?.querySelector<HTMLElement>('[data-stop]');
		this.#isAwaited = target?.dataset['stop'] !== 'there';
		target?.focus({ preventScroll: true });
	}
}
