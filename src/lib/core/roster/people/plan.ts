import { type ColumnField, type DateField, type PersonField, dateFields, personFields } from '../fields';
import type { RosterColumn } from '../roster-answer';
import { tokensOf } from '../columns/header-text';
import { cellText } from '../values/cell-text';

/** Where in a record to find what. Columns are counted from 0. */
export interface Plan {
	readonly headers: readonly string[];
	/** How many cells a record needs: up to the last one with a header. */
	readonly width: number;
	readonly id: number | undefined;
	/** The columns of the name, in the order in which they are joined: one, or the given names before the family names. */
	readonly names: readonly number[];
	readonly isFamilyFirst: boolean;
	readonly dates: ReadonlyMap<DateField, number>;
	/** Every other field that has a column. */
	readonly others: ReadonlyMap<PersonField, number>;
	/** All columns that are used. */
	readonly used: ReadonlySet<number>;
	/** Records above the header, their cells joined by line feeds: a report repeats them on every page. */
	readonly titles: ReadonlySet<string>;
}

/** Makes the plan of a list from its columns and the records above its header. */
export function planOf(
	columns: readonly RosterColumn[],
	isFamilyFirst: boolean,
	above: readonly (readonly string[])[]
): Plan {
	const of = (field: ColumnField): number[] =>
		columns.flatMap((column, index) => (column.field === field ? [index] : []));
	const first = (field: ColumnField): [number] | [] => of(field).slice(0, 1) as [number] | [];
	const whole = of('name');
	const names =
		whole.length > 1
			? inNameOrder(whole, columns)
			: whole.length === 1
				? whole
				: [...of('givenName'), ...of('familyName')];
	const dates = new Map(
		dateFields.flatMap((field) => first(field).map((column): [DateField, number] => [field, column]))
	);
	const others = new Map(
		personFields
			.filter((field) => field !== 'id' && field !== 'name' && field !== 'startsOn' && field !== 'leavesOn')
			.flatMap((field) => first(field).map((column): [PersonField, number] => [field, column]))
	);
	const [id] = first('id');
	return {
		headers: columns.map(({ header }) => header),
		width: columns.findLastIndex(({ header }) => cellText(header) !== '') + 1 || columns.length,
		id,
		names,
		isFamilyFirst,
		dates,
		others,
		used: new Set([...(id === undefined ? [] : [id]), ...names, ...dates.values(), ...others.values()]),
		titles: new Set(
			above
				.map((cells) =>
					cells
						.map(cellText)
						.filter((text) => text !== '')
						.join('\n')
				)
				.filter((title) => title !== '')
		)
	};
}

/** Two columns that were both said to be the name: the given one first, where the headers tell them apart. */
function inNameOrder(whole: readonly number[], columns: readonly RosterColumn[]): number[] {
	const isGiven = (column: number): boolean =>
		tokensOf(columns[column]?.header ?? '').some((token) =>
			/^(?:first|given|forename|vorname|rufname|prenom|nombre|imie)/.test(token)
		);
	return [...whole].sort((a, b) => Number(isGiven(b)) - Number(isGiven(a)) || a - b);
}
