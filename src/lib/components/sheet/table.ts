/** A column of a table. */
export interface Column {
	readonly key: string;
	readonly label: string;
	/** Figures stand at the end of the cell, words at its start. */
	readonly isFigure?: boolean;
	/** Can be sorted by: its heading is then a link. */
	readonly isSortable?: boolean;
	/** A heading that is said, not shown: for a column of buttons. */
	readonly isHeardOnly?: boolean;
	/** The column names the row. One per table. */
	readonly isName?: boolean;
}

/** By what a table is sorted. */
export interface Sorting {
	readonly key: string;
	readonly isDescending: boolean;
}

/**
 * Reads the sorting from an address: `?sort=name` ascending, `?sort=-name` descending. A key that is not among those
 * allowed counts as none, so that an old link still opens.
 */
export function readSorting(url: URL, keys: readonly string[], parameter = 'sort'): Sorting | undefined {
	const text = url.searchParams.get(parameter) ?? '';
	const isDescending = text.startsWith('-');
	const key = isDescending ? text.slice(1) : text;
	return keys.includes(key) ? { key, isDescending } : undefined;
}

/** The address that sorts by a column, or turns the order round when it is sorted by it already; starts at page one. */
export function sortHref(url: URL, key: string, parameter = 'sort'): string {
	const isAscendingNow = url.searchParams.get(parameter) === key;
	return withParameters(url, { [parameter]: isAscendingNow ? `-${key}` : key, page: null });
}

/** The query of an address with some parameters set, or taken away (null). */
export function withParameters(url: URL, changes: Readonly<Record<string, string | null>>): string {
	const parameters = new URLSearchParams(url.searchParams);
	for (const [name, value] of Object.entries(changes)) {
		if (value === null) parameters.delete(name);
		else parameters.set(name, value);
	}
	const query = parameters.toString();
	return query === '' ? url.pathname : `?${query}`;
}
