import Papa from 'papaparse';

/**
 * Rows as CSV with a header: comma, CRLF, quotes where needed, and a byte order mark so that spreadsheets read it as UTF-8.
 * A cell that a spreadsheet would take for a formula gets an apostrophe before it.
 * @source RFC 4180, section 2; V-CSV-02 (cells that start as formulas): common practice, no source
 */
export function csvOf(header: readonly string[], rows: readonly (readonly (string | number | null)[])[]): string {
	const data = rows.map((row) => row.map((cell) => cell ?? ''));
	return `\ufeff${Papa.unparse({ fields: [...header], data }, { escapeFormulae: true, newline: '\r\n' })}\r\n`;
}
