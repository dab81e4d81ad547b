import { fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { type Result, ok, refused } from '../kernel/result';
import type { Table } from './read-table';

/** A cell that a person put right: the record (counted from 1), the header of the column, what shall stand there. */
export interface Correction {
	readonly row: number;
	readonly column: string;
	readonly value: string;
}

/**
 * The table with cells put right, before anything is read from them, so that what is put right counts as evidence for its
 * column too. The later of two corrections of one cell counts. Refuses, all at once, those of a row or column that is
 * not there.
 */
export function corrected<T extends Table>(table: T, corrections: readonly Correction[]): Result<T> {
	if (corrections.length === 0) return ok(table);
	const { headers } = table.plan;
	const records = [...table.records.records];
	const broken = new Map(table.records.broken);
	const faults = corrections.flatMap(({ row, column, value }, place) => {
		const at = headers.indexOf(column);
		const before = records[row - 1];
		if (at < 0) {
			const expected = `a header of this list: ${headers.join(', ')}`;
			return [fault(['corrections', place, 'column'], column, expected, nearestName(column, headers))];
		}
		if (before === undefined || row - 1 < table.firstIndex) {
			const expected = `a row under the header, ${table.firstIndex + 1} to ${records.length}`;
			return [fault(['corrections', place, 'row'], row, expected)];
		}
		const cells = [...before];
		while (cells.length <= at) cells.push('');
		cells[at] = value;
		records[row - 1] = cells;
		if (broken.get(row - 1) === at) broken.delete(row - 1);
		return [];
	});
	if (faults.length > 0) return refused(faults);
	return ok({ ...table, records: { ...table.records, records, broken } });
}
