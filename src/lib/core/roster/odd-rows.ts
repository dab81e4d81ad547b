import type { RosterReading } from './import-roster';
import { fits } from './people/row-draft';
import { cellText } from './values/cell-text';

/** A row with more or fewer cells than the header, to be put right as a whole. */
export interface OddRow {
	readonly row: number;
	readonly cells: readonly string[];
	/** Cells as they may be meant, one for each header; null where no way, or more than one, makes them fit. */
	readonly suggested: readonly string[] | null;
}

export interface OddRows {
	readonly headers: readonly string[];
	readonly found: readonly OddRow[];
	readonly count: number;
}

/** Rows with the wrong number of cells, at most `most` of them, each with the one way in which it would fit, if there is one. */
export function oddRowsOf(reading: RosterReading, most: number): OddRows {
	const { table, misplaced } = reading;
	const seen = misplaced.length > 0 ? textsSeen(reading) : new Map<number, ReadonlySet<string>>();
	const between = 'delimiter' in table && typeof table.delimiter === 'string' ? table.delimiter : ' ';
	return {
		headers: table.plan.headers,
		found: misplaced.slice(0, most).map((row) => {
			const cells = (table.records.records[row - 1] ?? []).map(cellText);
			return { row, cells, suggested: suggestionFor(cells, between, reading, seen) };
		}),
		count: misplaced.length
	};
}

/** How many rows are looked at to tell what else stands in a column. */
const surveyed = 2000;

/** What stands in the columns of words (departments, jobs, patterns) in the rows that have as many cells as the header. */
function textsSeen({ table }: RosterReading): ReadonlyMap<number, ReadonlySet<string>> {
	const { plan, records, firstIndex } = table;
	const rows = records.records
		.slice(firstIndex, firstIndex + surveyed)
		.filter((cells) => cells.length === plan.headers.length);
	const columns = [...plan.others].filter(([field]) => field !== 'email').map(([, column]) => column);
	return new Map(columns.map((column) => [column, new Set(rows.map((cells) => cellText(cells[column] ?? '')))]));
}

/**
 * How a row was probably meant. Too many cells: a delimiter stands in one cell without quotes, so that neighbors are joined
 * again. Too few: cells are missing at one place. Only ways in which every cell fits its column count; of these the one with
 * most of number and name filled, and most words that stand in their column elsewhere too, where it is alone at that. It is offered, and never taken by itself.
 */
function suggestionFor(
	cells: readonly string[],
	between: string,
	{ table: { plan }, ids }: RosterReading,
	seen: ReadonlyMap<number, ReadonlySet<string>>
): readonly string[] | null {
	const width = plan.headers.length;
	const surplus = cells.length - width;
	const ways = new Map<string, readonly string[]>();
	const add = (way: readonly string[]): void => void ways.set(JSON.stringify(way), way);
	if (surplus > 0) {
		const glue = between === ',' || between === ';' ? `${between} ` : between;
		for (let at = 0; at + surplus < cells.length; at++) {
			// Cells that were put in with nothing in them leave no delimiter behind.
			const parts = cells.slice(at, at + surplus + 1).filter((cell) => cell !== '');
			add([...cells.slice(0, at), parts.join(glue), ...cells.slice(at + surplus + 1)]);
		}
	} else {
		const missing = Array.from({ length: -surplus }, () => '');
		for (let at = 0; at <= cells.length; at++) add([...cells.slice(0, at), ...missing, ...cells.slice(at)]);
	}
	const scored = [...ways.values()]
		.filter((way) => fits(way, plan, ids))
		.map((way) => ({
			way,
			score:
				[...seen].filter(([column, texts]) => texts.has(way[column] ?? '')).length +
				[...(plan.id === undefined ? [] : [plan.id]), ...plan.names].filter((column) => way[column] !== '').length
		}))
		.sort((a, b) => b.score - a.score);
	const [best, next] = scored;
	return best !== undefined && (next === undefined || next.score < best.score) ? best.way : null;
}
