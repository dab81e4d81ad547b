import Papa from 'papaparse';
import type { Cell } from '../lists/define-list';

/**
 * What a spreadsheet program could take for a formula: such a cell gets an apostrophe before it. Also after spaces and in the wide
 * forms of East Asian text, since programs trim the ones and read the others.
 * @source V-CSV-02 (=, +, - and @): common practice, no source; tab and returns at the beginning, spaces and wide forms: from memory
 */
const formula = /^[\s\ufeff]*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r\n]/u;

/** So many rows are written at once. */
const rowsInPiece = 1000;

/**
 * A table as CSV, piece by piece, so that a long one need not be there as a whole: a header, CRLF, quotes where needed, and a byte
 * order mark at the beginning so that spreadsheet programs read it as UTF-8. Numbers are written with a point, dates as ISO 8601.
 * @source RFC 4180, section 2
 */
export function* csvPieces(
	header: readonly string[],
	rows: Iterable<readonly Cell[]>,
	delimiter = ','
): Generator<string, void> {
	let piece: (readonly Cell[])[] = [header];
	let opening = '\ufeff';
	for (const row of rows) {
		piece.push(row);
		if (piece.length < rowsInPiece) continue;
		yield opening + csvOf(piece, delimiter);
		[piece, opening] = [[], ''];
	}
	if (piece.length > 0) yield opening + csvOf(piece, delimiter);
}

function csvOf(rows: readonly (readonly Cell[])[], delimiter: string): string {
	const cells = rows.map((row) =>
		row.map((cell) => (typeof cell === 'boolean' ? (cell ? 'yes' : 'no') : (cell ?? '')))
	);
	// A line with one empty cell would be an empty line, which readers skip.
	const isNarrow = cells.some((row) => row.length === 1 && row[0] === '');
	const quotes = isNarrow ? { quotes: true } : {};
	return `${Papa.unparse(cells, { delimiter, escapeFormulae: formula, newline: '\r\n', ...quotes })}\r\n`;
}
