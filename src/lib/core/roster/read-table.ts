import { type Fault, fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { type Result, ok, refused } from '../kernel/result';
import { recognizeColumns } from './columns/recognize-columns';
import { recognizeHeader } from './columns/recognize-header';
import { rosterExpected } from './decode/decode-roster';
import type { ColumnField } from './fields';
import type { Known } from './people/read-values';
import { type Plan, planOf } from './people/plan';
import { findLayout, headerKey, headerOfTwoLines } from './records/find-layout';
import { type Records, mostRecords, readRecords } from './records/read-records';
import type { RosterColumn } from './roster-answer';
import type { RosterMap } from './roster-map';
import { cellText } from './values/cell-text';

/** A list taken apart into records and columns. */
export interface Table {
	readonly columns: readonly RosterColumn[];
	readonly plan: Plan;
	readonly records: Records;
	/** Index of the first record under the header. */
	readonly firstIndex: number;
}

/** A table of delimited text. */
export interface TextTable extends Table {
	readonly delimiter: string;
}

/** A list of which the beginning is known, and how it is laid out. */
export interface TableStart {
	/** The header and the first records under it, with whatever stands above. */
	readonly records: readonly (readonly string[])[];
	/** Index of the header, -1 where there is none. */
	readonly headerIndex: number;
	readonly width: number;
	/** What the columns are recognized by, where that says more than the header alone. */
	readonly named?: readonly string[];
	/** What is known of columns before anything is recognized, by index; what a map says goes before it. */
	readonly given?: ReadonlyMap<number, ColumnField | null>;
}

/** How many records are looked at to tell what a column holds. */
export const surveyed = 500;

/**
 * Takes the text of a roster apart. Refuses text that is no list of people: no two columns, or none that holds ids or
 * names; text that is cut off; and a map whose headers are not there.
 */
export function readTable(text: string, map: RosterMap, known: Known | undefined): Result<TextTable> {
	const wanted = { delimiter: map.delimiter ?? undefined, headers: Object.keys(map.columns ?? {}) };
	const layout = findLayout(text, wanted);
	const { delimiter, headerIndex, width } = layout;
	if (width < 2) {
		const unwrapped = withoutLineQuotes(text);
		if (unwrapped !== undefined && findLayout(unwrapped, wanted).width >= 2) return readTable(unwrapped, map, known);
		return refused([noRoster('text in one column')]);
	}
	// The beginning tells whether this is a roster, before all of a large file is taken apart.
	const start = readRecords(text, { delimiter, width, most: headerIndex + 1 + surveyed }).records;
	const twice = map.columns ? undefined : headerOfTwoLines(start, headerIndex);
	const recognized = recognizeTable(
		twice
			? { records: start.with(headerIndex + 1, twice), headerIndex: headerIndex + 1, width }
			: { records: start, headerIndex, width },
		map,
		known
	);
	if (!recognized.ok) return recognized;
	const { plan, firstIndex } = recognized.value;
	const records = readRecords(text, { delimiter, width });
	if (records.isTooLong) {
		const expected = `a list of at most ${mostRecords} rows, as a spreadsheet holds`;
		return refused([fault([], `a file of more than ${mostRecords} rows`, expected)]);
	}
	if (records.isCutOff || isCutInRecord(records, plan, firstIndex)) return refused([cutOff(records)]);
	return ok({ ...recognized.value, delimiter, records });
}

/** Says what the columns of a list hold, from its beginning. Refuses what is no list of people, and a map that is wrong. */
export function recognizeTable(
	{ records, headerIndex, width, named, given: before }: TableStart,
	map: RosterMap,
	known: Known | undefined
): Result<Omit<Table, 'records'>> {
	const firstIndex = headerIndex < 0 ? firstOfData(records) : headerIndex + 1;
	const headers =
		headerIndex < 0
			? letters(width)
			: Array.from({ length: width }, (_, column) =>
					(records[headerIndex]?.[column] ?? '').replace(/\ufeff/g, '').trim()
				);
	const said = columnsGiven(map, headers);
	if (!said.ok) return said;
	const sample = records
		.slice(firstIndex, firstIndex + surveyed)
		.filter((cells) => cells.length >= headers.length && cells.some((cell) => cell !== ''));
	const recognized = recognizeColumns(
		headerIndex < 0 ? headers.map(() => '') : (named ?? headers),
		(column) => sample.map((cells) => cells[column] ?? ''),
		known,
		new Map([...(before ?? []), ...said.value])
	);
	const columns = recognized.columns.map((column, index) => ({ ...column, header: headers[index] ?? '' }));
	if (!isRoster(columns, said.value.size > 0)) return refused([noRoster(foundHeaders(headers, headerIndex))]);
	const plan = planOf(columns, recognized.isFamilyFirst, records.slice(0, Math.max(headerIndex, 0)));
	return ok({ columns, plan, firstIndex });
}

/**
 * The text without the quotes around each whole line, with which some programs write a list that they took for a single
 * column; undefined where it has none.
 */
function withoutLineQuotes(text: string): string | undefined {
	if (!/^\ufeff?\s*"[^"\r\n]*[,;\t|"]/.test(text)) return undefined;
	const { records, isCutOff } = readRecords(text, { delimiter: ',' });
	if (isCutOff || records.some((cells) => cells.length > 1)) return undefined;
	const unwrapped = records.map(([cell = '']) => cell).join('\n');
	return unwrapped.length < text.length - records.length ? unwrapped : undefined;
}

/** The first record that has something in it, after a line that declares the delimiter. */
function firstOfData(records: readonly (readonly string[])[]): number {
	return /^sep=.?$/i.test(records[0]?.[0] ?? '') ? 1 : 0;
}

/** Columns without a header are named as spreadsheets name them: A to Z, AA, AB and so on. */
function letters(width: number): string[] {
	return Array.from({ length: width }, (_, index) => {
		let name = '';
		for (let rest = index + 1; rest > 0; rest = Math.floor((rest - 1) / 26))
			name = String.fromCharCode(65 + ((rest - 1) % 26)) + name;
		return name;
	});
}

function columnsGiven(map: RosterMap, headers: readonly string[]): Result<ReadonlyMap<number, ColumnField | null>> {
	const keys = headers.map(headerKey);
	const given = new Map<number, ColumnField | null>();
	const faults = Object.entries(map.columns ?? {}).flatMap(([header, field]) => {
		const exact = headers.indexOf(header);
		const column = exact >= 0 ? exact : keys.indexOf(headerKey(header));
		if (column >= 0) given.set(column, field);
		// What is not used need not be there.
		if (column >= 0 || field === null) return [];
		const expected = `a header of this list: ${headers.filter((one) => one !== '').join(', ')}`;
		return [fault(['columns', header], header, expected, nearestName(header, headers))];
	});
	return faults.length > 0 ? refused(faults) : ok(given);
}

/** Fields that only a list of people has. */
const ofPeople: ReadonlySet<ColumnField | null> = new Set<ColumnField>([
	...(['email', 'department', 'job', 'startsOn', 'leavesOn', 'shiftPattern', 'captureClass'] as const),
	...(['givenName', 'familyName'] as const)
]);

/**
 * Whether the columns are those of a list of people. There is an id or a name; and a map says so, or there is something
 * else that only people have, or a header that surely says id or name, and none of goods: `ID` and `Name` can stand over
 * anything. An id alone must say more than `ID`.
 */
function isRoster(columns: readonly RosterColumn[], isMapped: boolean): boolean {
	const nameFields: ReadonlySet<ColumnField | null> = new Set<ColumnField>(['name', 'givenName', 'familyName']);
	const id = columns.find(({ field }) => field === 'id');
	const name = columns.find(({ field }) => nameFields.has(field));
	if (id === undefined && name === undefined) return false;
	if (isMapped || columns.some(({ field }) => ofPeople.has(field))) return true;
	if (columns.some(({ header }) => recognizeHeader(header)[0]?.concept === 'goods')) return false;
	const says = (column: RosterColumn | undefined): boolean =>
		column !== undefined &&
		recognizeHeader(column.header).some(({ concept, sure }) => concept !== 'other' && sure > 0.6);
	if (id !== undefined && name !== undefined) return says(id) || says(name);
	return says(id) && (id?.header.length ?? 0) > 3;
}

function foundHeaders(headers: readonly string[], headerIndex: number): string {
	return headerIndex < 0 ? 'records without a header' : headers.join(', ');
}

/** The fault of something that is no list of people. */
export function noRoster(found: string): Fault {
	return fault(
		[],
		found,
		`${rosterExpected}, with a header for the id and one for the name (as in ID, Name, Department). ` +
			'Choose the sheet with the people, or say in a map what the columns hold'
	);
}

function cutOff({ records, isCutOff }: Records) {
	const row = records.length + (isCutOff ? 1 : 0);
	return fault(
		[],
		`a file that ends inside ${isCutOff ? 'quotes' : 'a record'}, in row ${row}`,
		'a whole file; this one is cut off. Export or send it again' +
			(isCutOff ? ', or close the quotes' : ', or end its last line if nothing is missing')
	);
}

/**
 * Whether the list breaks off inside its last record: that one alone has too few cells, and no line end, in a list long
 * enough that this is no accident.
 */
function isCutInRecord({ records, endsInLineEnd }: Records, plan: Plan, firstIndex: number): boolean {
	if (endsInLineEnd) return false;
	const rows = records.slice(firstIndex).filter((cells) => cells.some((cell) => cellText(cell) !== ''));
	const last = rows.at(-1);
	if (last === undefined || rows.length < 20 || last.length >= plan.width || last.length < 2) return false;
	return rows.slice(0, -1).every((cells) => cells.length >= plan.width);
}
