import type { Person, Rollout } from '../document/schema';
import { type ColumnField, isListField } from './fields';
import type { RosterReading } from './import-roster';
import { cellText } from './values/cell-text';

/** One of those who may be the same: a row of the list, or (row null) a person of the document who is missing in it. */
export interface DuplicateSide {
	readonly row: number | null;
	readonly id: string;
	/** What stands there in each of the columns shown, in their order. */
	readonly texts: readonly string[];
}

/**
 * Rows that cannot all be right: several with one number (`one-number`: the first is taken), or one person under two numbers
 * (`one-person`: both are taken until somebody decides).
 */
export interface Duplicate {
	readonly kind: 'one-number' | 'one-person';
	/** The column of the number, by its header. */
	readonly idColumn: string;
	readonly sides: readonly DuplicateSide[];
}

/** The columns that are compared side by side: those that are used, with the header and what it was taken for. */
export interface ShownColumn {
	readonly header: string;
	readonly field: ColumnField;
}

export interface Duplicates {
	readonly columns: readonly ShownColumn[];
	readonly found: readonly Duplicate[];
	/** How many there are in all, when not all are given. */
	readonly count: number;
}

/** Sets of rows that cannot all be right, side by side, in the order of the list; at most `most` of them. */
export function duplicatesOf(reading: RosterReading, into: Rollout | undefined, most: number): Duplicates {
	const { answer, table, rowById } = reading;
	const used = table.columns.flatMap(({ header, field }, index) => (field === null ? [] : [{ header, field, index }]));
	const idColumn = table.plan.id === undefined ? '' : (table.plan.headers[table.plan.id] ?? '');
	const persons = new Map((into?.people ?? []).map((person) => [person.id, person]));
	const ofRow = (row: number, id: string): DuplicateSide => {
		const cells = table.records.records[row - 1] ?? [];
		return { row, id, texts: used.map(({ index }) => cellText(cells[index] ?? '')) };
	};
	const ofPerson = (person: Person): DuplicateSide => ({
		row: null,
		id: person.id,
		texts: used.map(({ field }) => textOf(person, field))
	});
	const repeated = new Map<string, number[]>();
	for (const { code, row, value } of answer.problems) {
		if (code === 'id-repeated') repeated.set(value, [...(repeated.get(value) ?? []), row]);
	}
	const found: Duplicate[] = [];
	for (const { code, row, value, nearest } of answer.problems) {
		if (code === 'id-repeated' && repeated.get(value)?.[0] === row) {
			const first = rowById.get(value);
			const rows = [...(first === undefined ? [] : [first]), ...(repeated.get(value) ?? [])];
			found.push({ kind: 'one-number', idColumn, sides: rows.map((one) => ofRow(one, value)) });
		} else if (code === 'same-person' && nearest !== undefined) {
			const otherRow = rowById.get(nearest);
			const person = persons.get(nearest);
			const other = otherRow === undefined ? person && ofPerson(person) : ofRow(otherRow, nearest);
			if (other) found.push({ kind: 'one-person', idColumn, sides: [other, ofRow(row, value)] });
		}
	}
	return {
		columns: used.map(({ header, field }) => ({ header, field })),
		found: found.slice(0, most),
		count: found.length
	};
}

function textOf(person: Person, field: ColumnField): string {
	if (field === 'givenName' || field === 'familyName') return '';
	if (isListField(field)) return person[field].join(', ');
	const value = person[field];
	return value === null ? '' : String(value);
}
