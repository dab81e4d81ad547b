import { type Place, placeAfterKey } from '$lib/components/access/grid-window';

/** Walks a grid that is wholly on the page by key: one of its cells is its only tab stop. */
export class GridKeys {
	/** Without script every cell is a tab stop. */
	isLive = $state(false);
	active = $state<Place>({ row: 0, column: 0 });
	readonly #size: () => { readonly rows: number; readonly columns: number };
	readonly #idOf: (place: Place) => string;

	constructor(size: () => { readonly rows: number; readonly columns: number }, idOf: (place: Place) => string) {
		this.#size = size;
		this.#idOf = idOf;
	}

	readonly attach = (box: HTMLElement): (() => void) => {
		this.isLive = true;
		const onkeydown = (event: KeyboardEvent) => this.#pressed(event);
		box.addEventListener('keydown', onkeydown);
		return () => box.removeEventListener('keydown', onkeydown);
	};

	tabindex(row: number, column: number): 0 | -1 | undefined {
		if (!this.isLive) return undefined;
		return this.active.row === row && this.active.column === column ? 0 : -1;
	}

	/** Gives a cell the focus. */
	focus(place: Place): void {
		this.active = place;
		document.getElementById(this.#idOf(place))?.querySelector('a')?.focus();
	}

	#pressed(event: KeyboardEvent): void {
		const size = this.#size();
		// Fields inside of the grid keep their own keys.
		if (!(event.target instanceof HTMLAnchorElement) || event.altKey || event.metaKey || event.shiftKey) return;
		const next = size.rows === 0 ? undefined : placeAfterKey(this.active, event, size, 10);
		if (!next) return;
		event.preventDefault();
		this.focus(next);
	}
}
