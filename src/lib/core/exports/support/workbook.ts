import writeXlsxFile, { type CellObject, type SheetData } from 'write-excel-file/universal';
import { fault } from '../../kernel/fault';
import { type Result, ok, refused } from '../../kernel/result';
import type { Cell, CellType, OfferedColumn } from '../lists/define-list';

/** A workbook is made in memory as a whole: beyond this a CSV, which is written piece by piece, serves better. */
export const mostWorkbookRows = 200_000;

/**
 * The most characters of a cell.
 * @source specifications and limits that spreadsheet programs publish: from memory
 */
const mostCharacters = 32_767;
const cutNote = ' … (cut here: a cell of a workbook holds no more; the CSV has all)';

/**
 * A table as a workbook of one sheet: the header stays in view, dates and numbers are cells of their type, and all else is text,
 * which no program takes for a formula. Refused is a table of more rows than `mostWorkbookRows`.
 * @source ECMA-376, part 1, section 22.9.2.19 (characters that XML has not): from memory
 */
export async function workbookOf(
	title: string,
	columns: readonly OfferedColumn[],
	rows: Iterable<readonly Cell[]>
): Promise<Result<Uint8Array>> {
	const header = columns.map(({ label }): CellObject => ({ value: safeText(label), type: String, fontWeight: 'bold' }));
	const data: SheetData = [header];
	const widths = columns.map(({ label }) => label.length);
	for (const row of rows) {
		if (data.length > mostWorkbookRows) {
			const expected = `a table of at most ${mostWorkbookRows} rows for a workbook; take it as csv`;
			return refused([fault(['format'], 'xlsx', expected)]);
		}
		data.push(row.map((cell, place) => cellOf(cell, columns[place]?.type ?? 'text')));
		row.forEach((cell, place) => (widths[place] = Math.max(widths[place] ?? 0, String(cell ?? '').length)));
	}
	const file = writeXlsxFile(data, {
		sheet: sheetName(title),
		stickyRowsCount: 1,
		columns: widths.map((width) => ({ width: Math.min(Math.max(width + 2, 8), 60) }))
	});
	return ok(new Uint8Array(await (await file.toBlob()).arrayBuffer()));
}

function cellOf(cell: Cell, type: CellType): CellObject | null {
	if (cell === null || cell === '') return null;
	if (typeof cell === 'number') return { value: cell, type: Number };
	if (typeof cell === 'boolean') return { value: cell, type: Boolean };
	const date = type === 'date' || type === 'date-time' ? dateOfCell(cell) : undefined;
	if (date === undefined) return { value: safeText(cell), type: String };
	return { value: date, type: Date, format: type === 'date' ? 'yyyy-mm-dd' : 'yyyy-mm-dd hh:mm' };
}

/** The date that a workbook counts from; before 1900-03-01 programs count differently, and it stays text. */
function dateOfCell(text: string): Date | undefined {
	return text < '1900-03-01' ? undefined : new Date(`${text.length === 10 ? `${text}T00:00` : text}:00Z`);
}

/** Text with characters that XML, or the writer, cannot hold written as `_x0007_`, and text that looks like that kept apart from it. */
function safeText(text: string): string {
	const escaped = text
		.replaceAll(/_(?=x[0-9A-Fa-f]{4}_)/g, '_x005F_')
		.replaceAll(
			/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffd-\uffff]|\p{Cs}/gu,
			(character) => `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`
		);
	return escaped.length <= mostCharacters ? escaped : escaped.slice(0, mostCharacters - cutNote.length) + cutNote;
}

/** At most 31 characters, without those that the name of a sheet cannot have. */
function sheetName(title: string): string {
	return (
		title
			.replaceAll(/[[\]:*?/\\']/g, ' ')
			.slice(0, 31)
			.trim() || 'List'
	);
}
