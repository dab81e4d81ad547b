import { fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { type Result, ok, refused } from '../kernel/result';
import type { Table } from './read-table';

/** What a person put right in a list; rows are records counted from 1. The list itself is never changed. */
export type Correction = CellCorrection | RowCorrection | RowLeftOut;

/** A cell: the header of its column, and what shall stand there. */
export interface CellCorrection {
	readonly row: number;
	readonly column: string;
	readonly value: string;
}

/** A whole record put anew, cell by cell, as its cells stood in the wrong columns. */
export interface RowCorrection {
	readonly row: number;
	readonly cells: readonly string[];
}

/** A record that does not count: it is read as if it were blank. */
export interface RowLeftOut {
	readonly row: number;
	readonly isLeftOut: true;
}

const blank: readonly string[] = [''];

/**
 * The table with cells and records put right, before anything is read from them, so that what is put right counts as evidence
 * for its column too. They are made in their order: the later of two corrections of one cell counts. Refuses, all at once, those
 * of a row or column that is not there, and records put anew with more cells than the list has columns.
 */
export function corrected<T extends Table>(table: T, corrections: readonly Correction[]): Result<T> {
	if (corrections.length === 0) return ok(table);
	const { headers } = table.plan;
	const records = [...table.records.records];
	const broken = new Map(table.records.broken);
	const faults = corrections.flatMap((correction, place) => {
		const index = correction.row - 1;
		const before = records[index];
		const at = 'column' in correction ? headers.indexOf(correction.column) : 0;
		if ('column' in correction && at < 0) {
			const { column } = correction;
			const expected = `a header of this list: ${headers.join(', ')}`;
			return [fault(['corrections', place, 'column'], column, expected, nearestName(column, headers))];
		}
		if (before === undefined || index < table.firstIndex) {
			const expected = `a row under the header, ${table.firstIndex + 1} to ${records.length}`;
			return [fault(['corrections', place, 'row'], correction.row, expected)];
		}
		if ('cells' in correction) {
			const { cells } = correction;
			if (cells.length > headers.length) {
				return [
					fault(['corrections', place, 'cells'], cells.length, `at most ${headers.length} cells, as the header has`)
				];
			}
			records[index] = headers.map((_, column) => cells[column] ?? '');
			broken.delete(index);
		} else if ('column' in correction) {
			const cells = [...before];
			while (cells.length <= at) cells.push('');
			cells[at] = correction.value;
			records[index] = cells;
			if (broken.get(index) === at) broken.delete(index);
		} else {
			records[index] = blank;
			broken.delete(index);
		}
		return [];
	});
	if (faults.length > 0) return refused(faults);
	return ok({ ...table, records: { ...table.records, records, broken } });
}
