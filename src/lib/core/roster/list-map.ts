import type { ColumnField } from './fields';
import { headerKey } from './records/find-layout';
import type { RosterColumn } from './roster-answer';
import type { RosterMap } from './roster-map';

/** What a person says about a list, as it is written into a file for the command line. */
export type WrittenMap = Readonly<Record<string, unknown>>;

/**
 * Names the shape of a list by its headers, as they are compared: lists of one shape have the same columns in the same order.
 * Undefined for a list without headers, whose columns tell nothing of what the next one has.
 */
export function shapeOf(columns: readonly RosterColumn[]): string | undefined {
	const keys = columns.map(({ header }) => headerKey(header));
	const isLettered = keys.every((key, index) => key === letterOf(index));
	return isLettered ? undefined : JSON.stringify(keys);
}

function letterOf(index: number): string {
	return index < 26 ? String.fromCharCode(97 + index) : letterOf(Math.floor(index / 26) - 1) + letterOf(index % 26);
}

/**
 * A list's columns as they were taken, with what else was said about it, as a map: with it, a list of the same shape is read in
 * the same way, whatever is in it. A header that stands twice is told of its first column.
 */
export function mapOf(columns: readonly RosterColumn[], said: RosterMap): WrittenMap {
	const written = new Map<string, ColumnField | null>();
	const seen = new Set<string>();
	for (const { header, field } of columns) {
		const key = headerKey(header);
		if (key === '' || seen.has(key)) continue;
		seen.add(key);
		written.set(header, field);
	}
	const others = Object.fromEntries(
		(['dateOrder', 'encoding', 'delimiter', 'sheet'] as const).flatMap((key) => {
			const value = said[key];
			return value === null || value === undefined ? [] : [[key, value]];
		})
	);
	return { columns: Object.fromEntries(written), ...others };
}
