import { recognizeHeader } from '../columns/recognize-header';
import type { ColumnField } from '../fields';
import { fault } from '../../kernel/fault';
import { nearestName } from '../../kernel/nearest';
import { type Result, ok, refused } from '../../kernel/result';
import type { Known } from '../people/read-values';
import { type Table, noRoster, recognizeTable, surveyed } from '../read-table';
import { findHeader, headerKey } from '../records/find-layout';
import type { SheetSeen } from '../roster-answer';
import type { RosterMap } from '../roster-map';
import type { Workbook, WorkbookSheet } from './read-workbook';
import type { Merge } from './sheet-records';

/** The sheet that is the roster, and every sheet with what could be read from it. */
export interface ChosenSheet {
	readonly table: Table;
	readonly sheet: string;
	readonly sheets: readonly SheetSeen[];
}

/**
 * Says which sheet of a workbook is the roster: the one that the map names; else, of those that are lists of people, one
 * that is not hidden before one that is, one with both ids and names before one without, the one with the most rows, the
 * first. Refuses a name that no sheet has, and a workbook without a list of people.
 */
export function chooseSheet({ sheets }: Workbook, map: RosterMap, known: Known | undefined): Result<ChosenSheet> {
	const read = sheets.map((sheet) => ({ sheet, table: tableOf(sheet, map, known) }));
	const seen = read.map(({ sheet: { name, isHidden }, table }): SheetSeen => ({
		name,
		rows: table.ok ? rowsOf(table.value) : 0,
		isHidden
	}));
	const wanted = map.sheet ?? undefined;
	if (wanted !== undefined) {
		const named =
			read.find(({ sheet }) => sheet.name === wanted) ??
			read.find(({ sheet }) => headerKey(sheet.name) === headerKey(wanted));
		if (named === undefined) {
			const names = sheets.map(({ name }) => name);
			const expected = `the name of a sheet of this workbook: ${names.join(', ')}`;
			return refused([fault(['sheet'], wanted, expected, nearestName(wanted, names))]);
		}
		const { table, sheet } = named;
		return table.ok ? ok({ table: table.value, sheet: sheet.name, sheets: seen }) : table;
	}
	const lists = read.flatMap(({ sheet, table }) => (table.ok ? [{ sheet, table: table.value }] : []));
	const [best] = lists.sort(
		(a, b) =>
			Number(a.sheet.isHidden) - Number(b.sheet.isHidden) ||
			Number(isWhole(b.table)) - Number(isWhole(a.table)) ||
			rowsOf(b.table) - rowsOf(a.table)
	);
	if (best) return ok({ table: best.table, sheet: best.sheet.name, sheets: seen });
	const filled = read.filter(({ sheet }) => sheet.records.length > 0);
	const [only] = filled;
	if (filled.length === 1 && only && !only.table.ok) return only.table;
	const names = filled.map(({ sheet }) => JSON.stringify(sheet.name)).join(', ');
	const wrong = filled.find(({ sheet, table }) => !sheet.isHidden && !table.ok)?.table;
	if (map.columns && wrong && !wrong.ok) return wrong;
	return refused([
		noRoster(filled.length === 0 ? 'a workbook with empty sheets' : `a workbook with the sheets ${names}`)
	]);
}

function isWhole({ plan }: Table): boolean {
	return plan.id !== undefined && plan.names.length > 0;
}

function rowsOf({ records: { records }, firstIndex }: Table): number {
	let rows = 0;
	for (let index = firstIndex; index < records.length; index++) {
		const cells = records[index] ?? [];
		if (cells.length > 1 || (cells[0] ?? '') !== '') rows++;
	}
	return rows;
}

function tableOf(sheet: WorkbookSheet, map: RosterMap, known: Known | undefined): Result<Table> {
	const { records, merges } = sheet;
	if (records.length === 0) return refused([noRoster('an empty sheet')]);
	const { headerIndex, width: found } = findHeader(records, Object.keys(map.columns ?? {}));
	const width = widthOf(records, headerIndex, found);
	if (width < 2) return refused([noRoster('a sheet with one column')]);
	const padded = records.map((cells) => fitted(cells, width));
	const header = padded[headerIndex] ?? [];
	const recognized = recognizeTable(
		{
			records: padded.slice(0, headerIndex + 1 + surveyed),
			headerIndex,
			width,
			named: header.map((text, column) => withGroup(text, column, padded, headerIndex, merges)),
			given: namesUnderOneHeader(header, headerIndex, padded, merges)
		},
		map,
		known
	);
	if (!recognized.ok) return recognized;
	return ok({
		...recognized.value,
		records: {
			records: padded,
			broken: new Map<number, number>(),
			isCutOff: false,
			isTooLong: false,
			endsInLineEnd: true
		}
	});
}

/**
 * How many columns the list has: those with a header, and those beside it that are filled in a tenth of the rows or more.
 * What stands further right is no part of the list.
 */
function widthOf(records: readonly (readonly string[])[], headerIndex: number, found: number): number {
	const below = records.slice(headerIndex + 1, headerIndex + 1 + surveyed).filter((cells) => cells.length > 1);
	const filled = (column: number): number => below.filter((cells) => (cells[column] ?? '') !== '').length;
	let width = found;
	while (below.length > 0 && filled(width) * 10 >= below.length && filled(width) > 0) width++;
	return width;
}

/** A record of the width of the list; a blank one stays as it is. */
function fitted(cells: readonly string[], width: number): readonly string[] {
	if (cells.length === width || (cells.length === 1 && cells[0] === '')) return cells;
	return cells.length > width
		? cells.slice(0, width)
		: [...cells, ...Array.from({ length: width - cells.length }, () => '')];
}

/** A header that says too little by itself, with the header merged over it and its neighbors: `Employment`, `From`. */
function withGroup(
	text: string,
	column: number,
	records: readonly (readonly string[])[],
	headerIndex: number,
	merges: readonly Merge[]
): string {
	const above = merges.find(
		({ bottom, left, right }) => bottom === headerIndex - 1 && right > left && left <= column && column <= right
	);
	const group = above === undefined ? undefined : records[above.top]?.[above.left];
	if (text === '' || group === undefined || group === '') return text;
	const sure = (header: string): number => {
		const [first] = recognizeHeader(header);
		return first === undefined || first.concept === 'other' || first.concept === 'goods' ? 0 : first.sure;
	};
	const together = `${group} ${text}`;
	return sure(together) > sure(text) ? together : text;
}

/** The columns of a name whose header is merged over several: all of them are the name, in the order of the header. */
function namesUnderOneHeader(
	header: readonly string[],
	headerIndex: number,
	records: readonly (readonly string[])[],
	merges: readonly Merge[]
): ReadonlyMap<number, ColumnField | null> {
	const given = new Map<number, ColumnField | null>();
	for (const { top, left, bottom, right } of merges) {
		if (top > headerIndex || bottom < headerIndex || right === left) continue;
		const concept = recognizeHeader(header[left] ?? '')[0]?.concept;
		const isName = concept === 'name' || concept === 'nameOrFamily' || concept === 'nameOrGiven';
		if (!isName && concept !== 'familyFirst') continue;
		const filled: number[] = [];
		for (let column = left; column <= right; column++) {
			const below = records.slice(headerIndex + 1, headerIndex + 1 + surveyed);
			if (below.some((cells) => (cells[column] ?? '') !== '')) filled.push(column);
		}
		if (filled.length < 2) continue;
		for (const [index, column] of filled.entries()) {
			given.set(column, isName ? 'name' : index === 0 ? 'familyName' : 'givenName');
		}
	}
	return given;
}
