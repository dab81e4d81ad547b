import type { LocalDate } from '../../calendar/local-date';
import type { DateField, PersonField } from '../fields';
import { problem } from '../problem';
import type { RosterPerson, RosterValue } from '../roster-answer';
import { type DateHabit, readDates } from './read-dates';
import { readIds } from './read-ids';
import { readNames } from './read-names';
import type { Plan } from './plan';
import { type Known, readValues } from './read-values';
import { type RowDraft, textAt } from './row-draft';

/** What the document knows that helps to read a roster. */
export interface KnownSide {
	readonly values: Known;
	hasPerson(id: string): boolean;
	dateOf(id: string, field: DateField): LocalDate | null;
}

/** A person that was read, and from where. */
export interface ReadPerson {
	readonly row: number;
	readonly person: RosterPerson;
	/** Fields whose cell has something in it that could not be read: nothing is known of them. */
	readonly unread: ReadonlySet<PersonField>;
}

/** A row that was held back, with what may tell whose it is. */
export interface HeldRow {
	readonly row: number;
	readonly id: string | undefined;
	/** The id that a damaged one may have been. */
	readonly likely: string | undefined;
	readonly name: string | undefined;
}

export interface ReadPeople {
	readonly people: readonly ReadPerson[];
	readonly held: readonly HeldRow[];
}

/** For everybody of whom all could be read. */
const none: ReadonlySet<PersonField> = new Set();

/** Makes people of the drafts; what is wrong with the values of a row is added to the problems of its draft. */
export function readPeople(
	drafts: readonly RowDraft[],
	plan: Plan,
	dateHabit: DateHabit,
	known: KnownSide | undefined
): ReadPeople {
	const placed = drafts.filter((draft) => !draft.isMisplaced);
	const ids = readIds(placed, plan, (id) => known?.hasPerson(id) ?? false);
	const names = readNames(placed, plan);
	const dates = readDates(placed, plan, dateHabit, (index, field) => {
		const id = ids[index]?.id;
		return id === undefined || !known ? null : known.dateOf(id, field);
	});
	const people: ReadPerson[] = [];
	const held: HeldRow[] = drafts
		.filter((draft) => draft.isMisplaced)
		.map((draft) => ({ row: draft.row, id: textAt(draft, plan.id) ?? undefined, likely: undefined, name: undefined }));
	for (const [index, draft] of placed.entries()) {
		const { row } = draft;
		const name = names[index] ?? null;
		const { id, heldAs, likely } = ids[index] ?? {};
		const ofRow: Partial<Record<PersonField, RosterValue>> = { id: id ?? null };
		if (plan.names.length > 0) ofRow.name = name === '' ? null : name;
		const notRead: PersonField[] = name === null ? ['name'] : [];
		for (const [field, cells] of dates) {
			const cell = cells[index] ?? null;
			ofRow[field] = cell === 'unread' ? null : cell;
			if (cell === 'unread') notRead.push(field);
		}
		notRead.push(...readValues(draft, plan, known?.values, ofRow));
		tellOrder(draft, plan, ofRow);
		if (id === undefined) held.push({ row, id: heldAs, likely, name: name === null || name === '' ? undefined : name });
		else people.push({ row, person: ofRow as RosterPerson, unread: notRead.length === 0 ? none : new Set(notRead) });
	}
	return { people, held };
}

function tellOrder(
	draft: RowDraft,
	plan: Plan,
	{ startsOn, leavesOn }: Partial<Record<PersonField, RosterValue>>
): void {
	const column = plan.dates.get('leavesOn');
	if (typeof startsOn !== 'string' || typeof leavesOn !== 'string' || leavesOn >= startsOn || column === undefined)
		return;
	const place = { row: draft.row, column: plan.headers[column] ?? '', value: textAt(draft, column) ?? leavesOn };
	draft.problems.push(problem('leaves-before-start', place, startsOn, leavesOn));
}
