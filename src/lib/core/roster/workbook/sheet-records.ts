import { type NumberFormat, masked } from './number-format';
import { unescaped } from './parts';
import { type DateSystem, serialText } from './serial-date';
import { readXml } from './xml';

/** Cells that were made one: from the upper left to the lower right, counted from 0. */
export interface Merge {
	readonly top: number;
	readonly left: number;
	readonly bottom: number;
	readonly right: number;
}

/** The cells of a sheet as texts: index 0 is row 1. Rows are as long as what stands in them. */
export interface SheetRecords {
	readonly records: (readonly string[])[];
	readonly merges: readonly Merge[];
}

/** What the cells of a workbook have in common. */
export interface SheetContext {
	readonly strings: readonly string[];
	readonly styles: readonly NumberFormat[];
	readonly dateSystem: DateSystem;
}

/** A sheet that cannot be read, in the words that follow "found". */
export class SheetFault extends Error {}

/** How much a sheet can hold: what spreadsheets do, and no more cells in all than the memory does. */
const most = { rows: 1_048_576, columns: 16_384, cells: 20_000_000 };

const blank: readonly string[] = [''];

/**
 * Reads the rows of a sheet. A cell's text is what it holds, not how wide it was shown: a number with all its digits, with
 * the zeros in front that its format shows; a date in ISO form, a time behind it where it has one; a formula by the value
 * that was calculated last, and by its own text with `=` where nothing was. Of merged cells each row has the value, in
 * the first column. Throws `XmlFault` and `SheetFault`.
 * @source ECMA-376 part 1: 18.3.1.4 (c), 18.3.1.73 (row), 18.3.1.55 (mergeCell), 18.18.11 (ST_CellType)
 */
export function readSheetRecords(bytes: Uint8Array, context: SheetContext): SheetRecords {
	const records: (readonly string[])[] = [];
	const merges: Merge[] = [];
	let row = -1;
	let column = -1;
	let cells: string[] = [];
	let count = 0;
	let type = '';
	let style = 0;
	let value: string | undefined;
	let inline = '';
	let formula = '';
	let listening: 'v' | 'f' | 't' | undefined;
	let isReading = false;
	readXml(bytes, {
		open(name, attribute) {
			if (name === 'c') {
				const place = attribute('r');
				column = place === undefined ? column + 1 : columnOf(place);
				if (column < 0) throw new SheetFault('a sheet with a cell in no column, so that it is damaged');
				if (column >= most.columns) throw new SheetFault('a sheet with more columns than a workbook can have');
				type = attribute('t') ?? 'n';
				style = Number(attribute('s') ?? 0);
				value = undefined;
				inline = formula = '';
			} else if (name === 'v' || name === 'f') {
				listening = name;
				// A formula whose text came out empty has an empty value; one that was not calculated has no type.
				if (name === 'v' && type === 'str') value = '';
			} else if (name === 't') listening = isReading ? undefined : 't';
			else if (name === 'rPh') isReading = true;
			else if (name === 'row') {
				const number = Number(attribute('r') ?? row + 2);
				if (!Number.isInteger(number) || number <= row || number > most.rows) {
					throw new SheetFault('a sheet whose rows are in no order, so that it is damaged');
				}
				while (records.length < number - 1) records.push(blank);
				row = number - 1;
				column = -1;
				cells = [];
			} else if (name === 'mergeCell') {
				const merge = mergeOf(attribute('ref') ?? '');
				if (merge !== undefined) merges.push(merge);
			}
		},
		text(piece) {
			if (listening === 'v') value = (value ?? '') + piece;
			else if (listening === 'f') formula += piece;
			else if (listening === 't') inline += piece;
		},
		close(name) {
			if (name === 'v' || name === 'f' || name === 't') listening = undefined;
			else if (name === 'rPh') isReading = false;
			else if (name === 'c') {
				const text =
					value === undefined && inline === '' && formula !== ''
						? `=${formula}`
						: textOf(type, value, inline, context.styles[style], context);
				if (text === '') return;
				count += Math.max(1, column + 1 - cells.length);
				if (count > most.cells) throw new SheetFault(`a sheet of more than ${most.cells} cells`);
				while (cells.length < column) cells.push('');
				if ((cells[column] ?? '') !== '')
					throw new SheetFault('a sheet with two cells in one place, so that it is damaged');
				cells[column] = text;
			} else if (name === 'row') records[row] = cells.length === 0 ? blank : cells;
		}
	});
	fillMerged(records, merges);
	return { records, merges };
}

function textOf(
	type: string,
	value: string | undefined,
	inline: string,
	format: NumberFormat | undefined,
	{ strings, dateSystem }: SheetContext
): string {
	if (type === 'inlineStr') return unescaped(inline);
	if (value === undefined || value === '') return '';
	if (type === 's') {
		const shared = strings[Number(value)];
		if (shared === undefined) throw new SheetFault('a sheet that names texts which the workbook does not hold');
		return shared;
	}
	if (type === 'str') return unescaped(value);
	if (type === 'b') return value === '1' || value === 'true' ? 'TRUE' : 'FALSE';
	if (type === 'e') return value;
	if (type === 'd') return value.replace(/T00:00(?::00(?:\.0+)?)?Z?$/, '');
	return numberText(value.trim(), format, dateSystem);
}

function numberText(written: string, format: NumberFormat | undefined, dateSystem: DateSystem): string {
	const number = Number(written);
	if (written === '' || !Number.isFinite(number)) return written;
	if (format?.kind === 'date' || format?.kind === 'time') return serialText(number, dateSystem, format.kind) ?? written;
	if (format?.kind === 'percent') return `${Number((number * 100).toPrecision(15))}%`;
	if (format?.kind === 'mask' && number >= 0 && Number.isSafeInteger(number)) return masked(number, format.parts);
	// A number keeps 15 digits: what has more, or is written in powers of ten beyond them, lost some.
	if (/^\d+$/.test(written) && Number.isSafeInteger(number)) return String(number);
	if (Math.abs(number) >= 1e15) return number.toExponential().toUpperCase();
	return String(Number(number.toPrecision(15)));
}

function columnOf(place: string): number {
	let column = 0;
	for (let at = 0; at < place.length; at++) {
		const code = place.charCodeAt(at) & ~0x20;
		if (code < 0x41 || code > 0x5a) break;
		column = column * 26 + code - 0x40;
	}
	return column - 1;
}

function mergeOf(ref: string): Merge | undefined {
	const corners = /^\$?([A-Z]{1,3})\$?(\d{1,7}):\$?([A-Z]{1,3})\$?(\d{1,7})$/i.exec(ref);
	if (!corners) return undefined;
	const [, left = '', top, right = '', bottom] = corners;
	return { left: columnOf(left), top: Number(top) - 1, right: columnOf(right), bottom: Number(bottom) - 1 };
}

/** Writes the value of cells merged over several rows into each of these rows. */
function fillMerged(records: (readonly string[])[], merges: readonly Merge[]): void {
	for (const { top, left, bottom } of merges) {
		const value = records[top]?.[left];
		if (value === undefined || value === '' || bottom <= top) continue;
		for (let row = top + 1; row <= bottom && row < records.length; row++) {
			const cells = records[row] ?? blank;
			// A merge over rows in which nothing else stands is a remark beside the list.
			if (cells.every((cell) => cell === '')) continue;
			const filled = [...cells];
			while (filled.length < left) filled.push('');
			if ((filled[left] ?? '') === '') filled[left] = value;
			records[row] = filled;
		}
	}
}
