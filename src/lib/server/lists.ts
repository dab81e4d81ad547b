import check from '../core/answers/check';
import type { Rollout } from '../core/document/schema';
import { listsByName } from '../core/exports/lists';
import type { List, ListInput } from '../core/exports/lists/define-list';
import { csvPieces } from '../core/exports/support/csv';
import {
	type HeldChoice,
	type TableChoice,
	delimiters,
	firstColumns,
	heldChoice,
	stillHeld,
	tableChoice
} from '../core/exports/support/table-choice';
import { fault } from '../core/kernel/fault';
import { nearestName } from '../core/kernel/nearest';
import type { Result } from '../core/kernel/result';
import { ask } from './answers';
import { listChanges } from './change-rollouts';
import { todayAt } from './clock';
import { writeWorkbook } from './jobs/errands';
import { Thread, hasWorker } from './jobs/thread';
import type { OpenRollout } from './open-rollouts';
import { type Outcome, outcomeOf, refuse } from './outcome';
import { store } from './store/current';

/** Lists taken out as tables, with columns that are chosen and remembered for each rollout. */

/** From so many people on, workbooks are made in a thread: one of 20,000 rows takes seconds. */
const manyPeople = 500;

/** A file as it is sent: written while it is read, or there as a whole. */
export interface ListFile {
	readonly name: string;
	readonly type: string;
	readonly body: ReadableStream<Uint8Array> | Uint8Array<ArrayBuffer>;
}

/** The list of a name, with a fault that names the nearest where there is none. */
export function needList(name: string): Outcome<List> {
	const list = listsByName.get(name);
	if (list) return { ok: true, value: list };
	const names = [...listsByName.keys()];
	return refuse('not-found', fault(['list'], name, `one of the lists ${names.join(', ')}`, nearestName(name, names)));
}

/** What the columns of a list are told from; what only its rows take is left out. */
function columnsInput(rollout: Rollout): ListInput {
	return { rollout, today: todayAt(rollout.site.timeZone) };
}

/** Every list with its columns. */
export function offeredLists({ rollout }: OpenRollout) {
	const input = columnsInput(rollout);
	return [...listsByName.values()].map((list) => {
		const { name, title, summary, sheet } = list;
		const columns = list.offered(input).map(({ key, label, type, isExtra = false }) => ({ key, label, type, isExtra }));
		return { name, title, summary, sheet, columns };
	});
}

/** The choice remembered for a list of a rollout, else its first columns as CSV. */
export function rememberedChoice({ id, rollout }: OpenRollout, list: List): HeldChoice & { readonly isFirst: boolean } {
	const input = columnsInput(rollout);
	const kept = tableChoice.safeParse(JSON.parse(store().fact(factOf(id, list)) ?? 'null'));
	if (kept.success) return { ...stillHeld(list, input, kept.data), isFirst: false };
	return { ...tableChoice.parse({}), columns: firstColumns(list, input), isFirst: true };
}

/** Remembers a choice for everybody who works with this rollout here; null forgets it. */
export function rememberChoice({ id, rollout }: OpenRollout, list: List, choice: TableChoice | null): Outcome<null> {
	const held = choice && heldChoice(list, columnsInput(rollout), choice);
	if (held?.ok === false) return outcomeOf(held);
	store().setFact(factOf(id, list), JSON.stringify(held?.value ?? null));
	return { ok: true, value: null };
}

function factOf(rollout: string, list: List): string {
	return `list-choice ${rollout} ${list.name}`;
}

/** A list as a file, by a choice; a CSV is written while it is sent. */
export async function listFile(open: OpenRollout, list: List, choice: TableChoice): Promise<Outcome<ListFile>> {
	const input = await rowsInput(open, list);
	if (!input.ok) return input;
	const held = heldChoice(list, input.value, choice);
	if (!held.ok) return outcomeOf(held);
	const { columns, format, delimiter } = held.value;
	const name = `${open.id}-${list.name}.${format}`;
	if (format === 'csv') {
		const offered = new Map(list.offered(input.value).map((column) => [column.key, column.label]));
		const header = columns.map((key) => offered.get(key) ?? key);
		const pieces = csvPieces(header, list.cells(input.value, columns), delimiters[delimiter]);
		return { ok: true, value: { name, type: 'text/csv; charset=utf-8', body: streamOf(pieces) } };
	}
	const made = await workbook(open.rollout, list, columns, input.value);
	if (!made.ok) return outcomeOf(made);
	const type = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';
	return { ok: true, value: { name, type, body: new Uint8Array(made.value) } };
}

async function rowsInput(open: OpenRollout, list: List): Promise<Outcome<ListInput>> {
	const input = columnsInput(open.rollout);
	if (list.needs === 'findings') {
		const found = await ask(open, check, {});
		return found.ok ? { ok: true, value: { ...input, findings: found.value.findings } } : found;
	}
	if (list.needs === 'changes') {
		const changes = listChanges(open.id, undefined, open.lastChange);
		return changes.ok ? { ok: true, value: { ...input, changes: changes.value } } : changes;
	}
	return { ok: true, value: input };
}

async function workbook(
	rollout: Rollout,
	list: List,
	columns: string[],
	{ rollout: _, ...rest }: ListInput
): Promise<Result<Uint8Array>> {
	const params = { list: list.name, columns, ...rest };
	if (!hasWorker() || rollout.people.length < manyPeople) return writeWorkbook(rollout, params);
	const own = new Thread();
	try {
		return (await own.ask({ answer: 'write-workbook', params, key: list.name, rollout })) as Result<Uint8Array>;
	} finally {
		await own.end();
	}
}

/** Text that is made when somebody reads on. */
function streamOf(pieces: Generator<string, void>): ReadableStream<Uint8Array> {
	const encoder = new TextEncoder();
	return new ReadableStream({
		pull(controller) {
			const piece = pieces.next();
			if (piece.done === true) controller.close();
			else controller.enqueue(encoder.encode(piece.value));
		}
	});
}

/** The choice that an address tells: `column` as often as there are columns, `format`, `delimiter`. */
export function choiceOfQuery(query: URLSearchParams): unknown {
	const columns = query.getAll('column');
	return {
		...(columns.length > 0 ? { columns } : {}),
		...(query.has('format') ? { format: query.get('format') } : {}),
		...(query.has('delimiter') ? { delimiter: query.get('delimiter') } : {})
	};
}

/** As `choiceOfQuery`, the other way. */
export function queryOfChoice({ columns, format, delimiter }: HeldChoice): string {
	return new URLSearchParams([
		...columns.map((key): [string, string] => ['column', key]),
		['format', format],
		...(format === 'csv' ? [['delimiter', delimiter] as [string, string]] : [])
	]).toString();
}
