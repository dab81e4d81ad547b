import type { Rollout } from '../document/schema';
import { type Fault, fault } from '../kernel/fault';
import { type Result, ok, refused } from '../kernel/result';
import { type Work, unwatched } from '../kernel/work';
import { changesFor } from './compare-with';
import { type Correction, corrected } from './corrections';
import { decodeRoster, withBytesShown } from './decode/decode-roster';
import { type DraftContext, type RowDraft, draftRow } from './people/row-draft';
import { passedOver } from './people/passed-over';
import { type KnownSide, readPeople } from './people/read-people';
import { findSamePeople } from './people/same-person';
import { type RosterProblem, problem } from './problem';
import { type Table, readTable } from './read-table';
import type { Known } from './people/read-values';
import type { RosterAnswer, RosterOrigin } from './roster-answer';
import { type RosterMap, readRosterMap } from './roster-map';
import { cellText } from './values/cell-text';
import { type IdColumn, surveyIds } from './values/ids';
import type { DateOrder } from './values/read-date';
import { knownValuesOf } from './values/known-values';
import { chooseSheet } from './workbook/choose-sheet';
import { isArchive, readWorkbook } from './workbook/read-workbook';
import type { DateSystem } from './workbook/serial-date';

export interface ImportOptions {
	/** What a person says about the list, as in `rosterMapSchema`; JSON, not checked yet. */
	readonly map?: unknown;
	/** The rollout that the list is compared with. */
	readonly into?: Rollout | undefined;
	/** Cells and rows that a person put right, or left out. */
	readonly corrections?: readonly Correction[];
	/** Pairs of ids of which a person said that they are two people. */
	readonly apart?: readonly (readonly [string, string])[];
	/** Who is told how far it is, and may stop it. */
	readonly work?: Work;
}

/** A list that was read, with what a preview needs beside the answer. */
export interface RosterReading {
	readonly answer: RosterAnswer;
	readonly table: Table;
	/** The order of day and month that the map gave, if it gave one. */
	readonly dateOrder: DateOrder | undefined;
	/** Where each person stands: id to row. */
	readonly rowById: ReadonlyMap<string, number>;
	/** Rows whose cells stand in the wrong columns, or that have more cells than the header. */
	readonly misplaced: readonly number[];
	readonly ids: IdColumn;
}

/**
 * Reads a list of people from the bytes of a file and proposes what it changes; nothing is applied. Every record is
 * accounted for: it is a person, or held back or passed over with a problem that says why, or blank. Refuses with faults
 * a file that is empty, unreadable, cut off or no roster, and a map that is wrong.
 * @source the record form: RFC 4180; everything else: our contract
 */
export function importRoster(bytes: Uint8Array, options: ImportOptions = {}): Result<RosterAnswer> {
	const read = readRoster(bytes, options);
	return read.ok ? ok(read.value.answer) : read;
}

/** As `importRoster`, with what a preview needs. Refuses also when it was stopped. */
export function readRoster(
	bytes: Uint8Array,
	{ map, into, corrections = [], apart = [], work = unwatched }: ImportOptions = {}
): Result<RosterReading> {
	const wanted = readRosterMap(map);
	if (!wanted.ok) return wanted;
	const known = into === undefined ? undefined : knownSideOf(into);
	work.report(0, steps.all, 'Taking the list apart');
	const opened = openList(bytes, wanted.value, known?.values);
	if (!opened.ok) return opened;
	const { origin, dateSystem, doubtfulIn } = opened.value;
	const mended = corrected(opened.value.table, corrections);
	if (!mended.ok) return mended;
	const table = mended.value;
	const { plan, columns } = table;
	const total = table.records.records.length - table.firstIndex;

	if (work.isCancelled()) return refused([stopped(total)]);
	work.report(steps.apart, steps.all, `Reading ${total} rows`);
	const { drafts, problems, ids } = readRows(table, { encoding: origin.encoding, doubtfulIn });
	if (work.isCancelled()) return refused([stopped(total)]);
	work.report(steps.rows, steps.all, `Reading the values of ${drafts.length} people`);
	const dateOrder = wanted.value.dateOrder ?? undefined;
	const { people, held } = readPeople(drafts, plan, { orderGiven: dateOrder, dateSystem }, known);
	if (work.isCancelled()) return refused([stopped(total)]);
	work.report(steps.people, steps.all, 'Comparing');
	const changes = changesFor(people, held, into);
	const left = new Set(changes.left);
	const missing = (into?.people ?? []).filter(({ id }) => left.has(id));
	const joined = new Set(changes.joined);
	const all = [
		...problems,
		...drafts.flatMap((draft) => draft.problems),
		...findSamePeople(people, plan, missing, (id) => joined.has(id), apart)
	];
	work.report(steps.all, steps.all);
	return ok({
		answer: {
			...origin,
			columns: columns.map((column) => ({ ...column, header: withBytesShown(column.header) })),
			people: people.map(({ person }) => person),
			problems: inOrder(all, plan.headers),
			changes
		},
		table,
		dateOrder,
		rowById: new Map(people.map(({ person, row }) => [person.id, row])),
		misplaced: drafts.filter(({ isOddlyLong }) => isOddlyLong).map(({ row }) => row),
		ids
	});
}

/** How far the work is, out of `all`: shares of the time that each step takes. */
const steps = { apart: 25, rows: 50, people: 85, all: 100 };

function stopped(rows: number): Fault {
	return fault([], `${rows} rows`, 'to be read to the end; it was stopped, and nothing was changed');
}

/** A list that was opened: its table, what the answer says of where it came from, and what its cells are read by. */
interface OpenList {
	readonly table: Table;
	readonly origin: RosterOrigin;
	readonly dateSystem: DateSystem | undefined;
	/** The encoding, where some of the text does not make sense in it. */
	readonly doubtfulIn: string | undefined;
}

/** Opens a workbook or delimited text, whatever its encoding, and takes it apart. */
export function openList(bytes: Uint8Array, map: RosterMap, known: Known | undefined): Result<OpenList> {
	if (isArchive(bytes)) {
		const workbook = readWorkbook(bytes);
		if (!workbook.ok) return workbook;
		const chosen = chooseSheet(workbook.value, map, known);
		if (!chosen.ok) return chosen;
		const { table, sheet, sheets } = chosen.value;
		const origin = { encoding: 'utf-8', sheet, sheets };
		return ok({ table, origin, dateSystem: workbook.value.dateSystem, doubtfulIn: undefined });
	}
	const decoded = decodeRoster(bytes, map.encoding ?? undefined);
	if (!decoded.ok) return decoded;
	const { encoding, text, hasDoubt } = decoded.value;
	const table = readTable(text, map, known);
	if (!table.ok) return table;
	const origin = { encoding, delimiter: table.value.delimiter };
	return ok({ table: table.value, origin, dateSystem: undefined, doubtfulIn: hasDoubt ? encoding : undefined });
}

/** Sorts the records under the header into people to be and records passed over. */
export function readRows(
	{ plan, records: { records, broken }, firstIndex }: Table,
	context: Pick<DraftContext, 'encoding' | 'doubtfulIn'>
): { readonly drafts: readonly RowDraft[]; readonly problems: RosterProblem[]; readonly ids: IdColumn } {
	const problems: RosterProblem[] = [];
	const drafts: RowDraft[] = [];
	const ids = surveyIds(idsOf(records, plan.id, firstIndex));
	const ofDraft = { ...context, plan, ids };
	for (let index = firstIndex; index < records.length; index++) {
		const cells = records[index] ?? [];
		if (cells.length === 1 && cells[0] === '') continue;
		const row = index + 1;
		const texts = cells.map(cellText);
		const why = passedOver(texts, plan, ids);
		if (why === undefined) drafts.push(draftRow(cells, texts, row, broken.get(index) ?? -1, ofDraft));
		else if (why !== 'blank') {
			const value = withBytesShown(texts.filter((text) => text !== '').join(' | '));
			problems.push(problem(why, { row, column: null, value }));
		}
	}
	return { drafts, problems, ids };
}

/** The ids of records with more than one cell filled: a single one may be a remark. */
function idsOf(records: readonly (readonly string[])[], column: number | undefined, firstIndex: number): string[] {
	const ids: string[] = [];
	if (column === undefined) return ids;
	for (let index = firstIndex; index < records.length; index++) {
		const cells = records[index] ?? [];
		const id = cellText(cells[column] ?? '');
		if (id !== '' && cells.some((cell, other) => cell !== '' && other !== column)) ids.push(id);
	}
	return ids;
}

function knownSideOf(into: Rollout): KnownSide {
	const people = new Map(into.people.map((person) => [person.id, person]));
	return {
		values: knownValuesOf(into),
		hasPerson: (id) => people.has(id),
		dateOf: (id, field) => people.get(id)?.[field] ?? null
	};
}

/** By row, then by column from the left; what concerns a whole record comes first. */
function inOrder(problems: readonly RosterProblem[], headers: readonly string[]): readonly RosterProblem[] {
	const columnOf = new Map([...headers.entries()].reverse().map(([index, header]) => [header, index]));
	const place = ({ column }: RosterProblem): number => (column === null ? -1 : (columnOf.get(column) ?? -1));
	return problems
		.toSorted((a, b) => a.row - b.row || place(a) - place(b))
		.map((one) => (one.column === null ? one : { ...one, column: withBytesShown(one.column) }));
}
