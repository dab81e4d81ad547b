import type { LocalDate } from '../../calendar/local-date';
import type { Rollout } from '../../document/schema';
import type { Finding } from '../../kernel/finding';

/**
 * What a column holds: text; a number; a date `2027-01-04`; a local date and time `2027-01-04T07:00`; yes or no. Ids are text, so
 * that leading zeros stay.
 */
export type CellType = 'text' | 'number' | 'date' | 'date-time' | 'yes-no';

/** A value of a column, null where there is none. */
export type Cell = string | number | boolean | null;

/** A column of a list. */
export interface Column<Row> {
	/** Names it in addresses and where it is remembered; never changes. */
	readonly key: string;
	readonly label: string;
	readonly type: CellType;
	readonly value: (row: Row) => Cell;
	/** Not among the columns that a list has before somebody chooses. */
	readonly isExtra?: boolean;
}

/** An entry of the change record, as far as the list shows it. */
export interface ListedChange {
	readonly number: number;
	/** Instant, ISO 8601 in UTC. */
	readonly at: string;
	readonly who: string;
	readonly what: string;
	readonly edit: string;
	readonly revision: string;
	readonly undoes: number | null;
	readonly undoneBy: number | null;
}

/** What a list is made from. */
export interface ListInput {
	readonly rollout: Rollout;
	/** Today at the site. */
	readonly today: LocalDate;
	/** For lists that need them. */
	readonly findings?: readonly Finding[];
	readonly changes?: readonly ListedChange[];
}

/** A list as it is defined: one file in this folder, its default export made by `defineList`. */
export interface ListDefinition<Row> {
	readonly name: string;
	readonly title: string;
	/** One sentence: what a row is. */
	readonly summary: string;
	/** The sheet that shows it, as its path below a rollout. */
	readonly sheet: string;
	/** What it takes beside the document; the change record is kept by the app alone. */
	readonly needs?: 'findings' | 'changes';
	/** Its columns; they can depend on the document. */
	columns(input: ListInput): readonly Column<Row>[];
	/** The rows in their order; made one by one, so that a long list need not be there as a whole. */
	rows(input: ListInput): Iterable<Row>;
}

/** A column as it is offered. */
export type OfferedColumn = Omit<Column<never>, 'value'>;

/** A list made ready: its rows give the cells of the columns asked for. */
export interface List extends Pick<ListDefinition<never>, 'name' | 'title' | 'summary' | 'sheet' | 'needs'> {
	offered(input: ListInput): readonly OfferedColumn[];
	/** The rows as cells of the columns with these keys, in their order; a key that no column has is left out. */
	cells(input: ListInput, keys: readonly string[]): Iterable<readonly Cell[]>;
}

/** Gives a list its types, and what every list can do. */
export function defineList<Row>(definition: ListDefinition<Row>): List {
	const { name, title, summary, sheet, needs } = definition;
	return {
		name,
		title,
		summary,
		sheet,
		...(needs === undefined ? {} : { needs }),
		offered: (input) => definition.columns(input),
		*cells(input, keys) {
			const byKey = new Map(definition.columns(input).map((column) => [column.key, column]));
			const chosen = keys.flatMap((key) => byKey.get(key) ?? []);
			for (const row of definition.rows(input)) yield chosen.map((column) => column.value(row));
		}
	};
}
