import type { LocalDate } from '../../calendar/local-date';
import type { DateField } from '../fields';
import { remembered } from '../../kernel/remembered';
import { type ProblemPlace, type RosterProblem, problem } from '../problem';
import { saysNothing } from '../values/cell-text';
import { type KnownDate, decideOrder, inOrder, isAmbiguous } from '../values/date-order';
import { type DateOrder, type DateReading, type NumericDate, readDate } from '../values/read-date';
import type { DateSystem } from '../workbook/serial-date';
import type { Plan } from './plan';
import { type RowDraft, textAt } from './row-draft';

/** A date cell: a date, nothing, or something that could not be read (told). */
export type DateCell = LocalDate | null | 'unread';

/** How the dates of a list are written, as far as that is known before they are read. */
export interface DateHabit {
	/** The order that a map gives. */
	readonly orderGiven: DateOrder | undefined;
	/** The system in which a workbook counts days; undefined for text, where nothing tells the system. */
	readonly dateSystem: DateSystem | undefined;
}

/** What the document knows of the person in a draft (by its index): the date in a field, if there is one. */
export type KnownDateOf = (index: number, field: DateField) => LocalDate | null;

/**
 * Reads the columns of dates. The order of day and month is decided for each column and each form of writing in it (by
 * the character between the numbers); where nothing decides, the ambiguous dates of the column are left unread and told
 * once, at the first of them. Each column is in the order of the drafts.
 */
export function readDates(
	drafts: readonly RowDraft[],
	plan: Plan,
	habit: DateHabit,
	knownDateOf: KnownDateOf
): ReadonlyMap<DateField, readonly DateCell[]> {
	return new Map(
		[...plan.dates].map(([field, column]) => [
			field,
			readColumn(drafts, column, plan.headers[column] ?? '', habit, (index) => knownDateOf(index, field))
		])
	);
}

function readColumn(
	drafts: readonly RowDraft[],
	column: number,
	header: string,
	{ orderGiven, dateSystem }: DateHabit,
	knownDateOf: (index: number) => LocalDate | null
): readonly DateCell[] {
	const texts = drafts.map((draft) => textAt(draft, column));
	// Of thousands of people many begin on one day: each text is read once.
	const readingByText = new Map<string, DateReading | undefined>();
	const readings = texts.map((text) =>
		text === null
			? undefined
			: remembered(readingByText, text, () => (saysNothing(text) ? undefined : readDate(text, dateSystem)))
	);
	const orders = ordersOf(readings, header, orderGiven, knownDateOf);
	const undecided: number[] = [];
	const cells = readings.map((reading, index): DateCell => {
		if (reading === undefined) return texts[index] === null ? 'unread' : null;
		const date = dateOf(reading, orders);
		if (date !== null) return date;
		if (reading.kind === 'numeric' && orders.get(reading.numeric.form) === undefined && isAmbiguous(reading.numeric)) {
			undecided.push(index);
		} else {
			const why =
				reading.kind === 'invalid'
					? reading.why
					: 'There is no such date in the order of the other dates in this column.';
			tell(index, (place) => problem('date-invalid', place, why));
		}
		return 'unread';
	});
	const [first] = undecided;
	if (first !== undefined) tell(first, (place) => problem('date-order-unknown', place, undecided.length));
	return cells;

	function tell(index: number, told: (place: ProblemPlace) => RosterProblem): void {
		const draft = drafts[index];
		draft?.problems.push(told({ row: draft.row, column: header, value: texts[index] ?? '' }));
	}
}

function dateOf(reading: DateReading, orders: ReadonlyMap<string, DateOrder | undefined>): LocalDate | null {
	if (reading.kind === 'date') return reading.date;
	return reading.kind === 'numeric' ? inOrder(reading.numeric, orders.get(reading.numeric.form)) : null;
}

function ordersOf(
	readings: readonly (DateReading | undefined)[],
	header: string,
	orderGiven: DateOrder | undefined,
	knownDateOf: (index: number) => LocalDate | null
): ReadonlyMap<string, DateOrder | undefined> {
	const dates = new Map<string, NumericDate[]>();
	const known = new Map<string, KnownDate[]>();
	for (const [index, reading] of readings.entries()) {
		if (reading?.kind !== 'numeric') continue;
		const { numeric } = reading;
		add(dates, numeric.form, numeric);
		const date = knownDateOf(index);
		if (date !== null) add(known, numeric.form, { numeric, date });
	}
	return new Map(
		[...dates].map(([form, list]) => [form, orderGiven ?? decideOrder(list, header, known.get(form) ?? [])])
	);
}

function add<T>(lists: Map<string, T[]>, key: string, entry: T): void {
	const list = lists.get(key);
	if (list) list.push(entry);
	else lists.set(key, [entry]);
}
