import { isDoubtful, withBytesShown } from '../decode/decode-roster';
import { isDateField, isListField } from '../fields';
import { type ProblemPlace, type RosterProblem, longestCell, problem } from '../problem';
import { cellText, isEmptyCell, isFormula, isSpreadsheetError, saysNothing } from '../values/cell-text';
import { type IdColumn, fitsColumn } from '../values/ids';
import { isEmail } from '../values/email';
import { looksLikeDate } from '../values/read-date';
import type { Plan } from './plan';

/** A record that is to be a person: its cells as texts, and what is wrong with them as text. */
export interface RowDraft {
	readonly row: number;
	/** The text of each column; of a used one null where it cannot be read (told already), empty or missing where there is nothing. */
	readonly texts: readonly (string | null | undefined)[];
	/** True when the cells stand in the wrong columns, so that none of them can be believed. */
	readonly isMisplaced: boolean;
	/** True when it has too many cells or too few: it is mended as a whole. */
	readonly isOddlyLong: boolean;
	readonly problems: RosterProblem[];
}

/** What a record is read by, beside its cells. */
export interface DraftContext {
	readonly plan: Plan;
	readonly ids: IdColumn;
	/** The encoding, where some of the file does not make sense in it; undefined otherwise. */
	readonly doubtfulIn: string | undefined;
	readonly encoding: string;
}

/**
 * Makes a draft of a record, whose cells by `cellText` are `texts`: these become its own. `brokenCell` is the cell with broken
 * quoting, -1 for none.
 */
export function draftRow(
	cells: readonly string[],
	texts: (string | null | undefined)[],
	row: number,
	brokenCell: number,
	context: DraftContext
): RowDraft {
	const { plan } = context;
	const problems: RosterProblem[] = [];
	const place = (column: number | null, value: string) => ({
		row,
		column: column === null ? null : (plan.headers[column] ?? ''),
		value: withBytesShown(value)
	});
	if (brokenCell >= 0) problems.push(problem('quote-broken', place(brokenCell, cells[brokenCell] ?? '')));
	const told = toldCount(cells, place, context, problems);
	const isMisplaced = told === 'misplaced';
	const isOddlyLong = told !== 'fits';
	if (isMisplaced) {
		// The id tells whose row is held back, if it is anybody's.
		const own = plan.id === undefined ? undefined : texts[plan.id];
		texts.fill(undefined);
		if (plan.id !== undefined) texts[plan.id] = own;
		return { row, texts, isMisplaced, isOddlyLong, problems };
	}
	for (let column = 0; column < cells.length; column++) {
		const raw = cells[column] ?? '';
		if (raw === '') continue;
		const isUsed = plan.used.has(column);
		const most = column === plan.id ? longestCell.id : isUsed ? longestCell.used : longestCell.any;
		const text = isUsed ? (texts[column] ?? '') : raw;
		const length = column === plan.id && text.length > most ? [...text].length : text.length;
		let readable = true;
		if (context.doubtfulIn !== undefined && isDoubtful(raw)) {
			problems.push(problem('encoding-doubtful', place(column, raw), context.doubtfulIn, false));
			readable = false;
		} else if (isUsed && isDecodedTwice(text)) {
			problems.push(problem('encoding-doubtful', place(column, raw), context.encoding, true));
		}
		if (length > most) {
			problems.push(problem('cell-too-long', place(column, raw), length, most));
			readable = false;
		}
		if (isFormula(raw)) problems.push(problem('formula', place(column, raw)));
		if (isUsed && isSpreadsheetError(text)) {
			problems.push(lostValue(column, plan, place(column, raw)));
			readable = false;
		}
		if (!readable) texts[column] = null;
		else if (isUsed && isEmptyCell(text)) texts[column] = '';
	}
	return { row, texts, isMisplaced, isOddlyLong, problems };
}

/** Tells a cell in which a spreadsheet wrote an error instead of the value, by what the column holds. */
function lostValue(column: number, plan: Plan, place: ProblemPlace): RosterProblem {
	if (column === plan.id) return problem('id-missing', place);
	if (plan.names.includes(column)) return problem('name-missing', place);
	if (plan.others.get('email') === column) return problem('email-invalid', place);
	return [...plan.dates.values()].includes(column)
		? problem('date-invalid', place, 'A spreadsheet wrote an error here instead of a date.')
		: problem('value-unknown', place, undefined, false, undefined);
}

/** Tells a record with too many or too few cells, and whether its cells are in the wrong columns. */
function toldCount(
	cells: readonly string[],
	place: (column: number | null, value: string) => { row: number; column: string | null; value: string },
	{ plan, ids }: DraftContext,
	problems: RosterProblem[]
): 'fits' | 'told' | 'misplaced' {
	const isSurplus =
		cells.length > plan.headers.length && cells.slice(plan.headers.length).some((cell) => cellText(cell) !== '');
	if (!isSurplus && cells.length >= plan.width) return 'fits';
	const isMisplaced = !fits(cells, plan, ids);
	const code = isSurplus ? 'cells-too-many' : 'cells-too-few';
	const expected = isSurplus ? plan.headers.length : plan.width;
	const value = cells.map((cell) => cell.trim()).join(' | ');
	problems.push(problem(code, place(null, value), cells.length, expected, isMisplaced));
	return isMisplaced ? 'misplaced' : 'told';
}

/** Whether the cells are of the kinds that their columns hold. */
export function fits(cells: readonly string[], { id, names, dates, others }: Plan, ids: IdColumn): boolean {
	const text = (column: number): string => cellText(cells[column] ?? '');
	if (id !== undefined && text(id) !== '' && !fitsColumn(text(id), ids)) return false;
	if (names.some((column) => /[\d@]/.test(text(column)))) return false;
	if ([...dates.values()].some((column) => !saysNothing(text(column)) && !looksLikeDate(text(column)))) return false;
	for (const [field, column] of others) {
		const value = text(column);
		if (isEmptyCell(value) || isListField(field) || isDateField(field)) continue;
		if (looksLikeDate(value)) return false;
		if (field === 'email' ? !saysNothing(value) && !value.includes('@') : isEmail(value)) return false;
	}
	return true;
}

const decodedTwice =
	/Ã[\u00a0-\u00bf\u0152\u0153\u0160\u0161\u0178\u017d\u017e\u0192\u02c6\u02dc\u2013-\u203a\u20ac\u2122]|[ÂÄÅ][\u00a0-\u00a9\u00ab-\u00b9\u00bb-\u00bf\u02c6\u02dc\u2013\u2014\u201a\u201c-\u203a\u20ac\u2122]/;

/** UTF-8 that was read as windows-1252 and written again: `MÃ¼ller`. */
function isDecodedTwice(text: string): boolean {
	return decodedTwice.test(text);
}

/** The text of a column in a draft: empty where there is nothing, null where it cannot be read. */
export function textAt({ texts }: RowDraft, column: number | undefined): string | null {
	const text = column === undefined ? undefined : texts[column];
	return text === undefined ? '' : text;
}
