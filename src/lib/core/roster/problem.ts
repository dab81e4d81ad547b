import { shown } from '../kernel/fault';

/** How long a cell may be: in a column that is used, and in any other (what spreadsheets hold). In UTF-16 code units. */
export const longestCell = { used: 1000, any: 32_767, id: 64 };

/**
 * What each code says, made from what is special to the case, and what to do about it. The codes are the identity of
 * problems; the sentences stand here and nowhere else.
 */
const sentences = {
	'id-missing': () => 'This row has no id, so it is held back. Give it the id of its person, or delete it.',
	'name-missing': () => 'This row has no name. The person is taken without one; add it if it is known.',
	'id-repeated': (id: string, first: number) =>
		`The id ${shown(id)} stands in row ${first} already. That row is taken, this one is held back: give it its own id, or delete it.`,
	'id-damaged': (id: string, why: string, likely: string | undefined) =>
		why.startsWith('holds')
			? `The id ${shown(id)} ${why}, so the row is held back. Correct the id.`
			: `The id ${shown(id)} ${why}, as happens when a spreadsheet takes ids for numbers, so the row is held back` +
				`${likely === undefined ? '' : ` (it may be ${shown(likely)})`}. Export the list again with this column as text.`,
	'same-person': (other: string, place: string) =>
		`This may be the same person as ${shown(other)} ${place}: everything else agrees. If so, keep one of the two ids.`,
	'date-order-unknown': (count: number) =>
		`${count === 1 ? 'A date' : `${count} dates`} in this column can be read day first or month first, and nothing in the column ` +
		`decides. ${count === 1 ? 'It is' : 'They are'} left empty: say which order is meant.`,
	'date-invalid': (why: string) => `${why} The date is left empty.`,
	'leaves-before-start': (startsOn: string, leavesOn: string) =>
		`The last day, ${leavesOn}, lies before the first, ${startsOn}. Correct one of them.`,
	'value-unknown': (what: string | undefined, isKept: boolean, nearest: string | undefined) =>
		what === undefined
			? 'A spreadsheet wrote an error here instead of a value. It is left empty: correct it.'
			: `This ${what} is not known at the site${nearest === undefined ? '.' : `; did you mean ${shown(nearest)}?`} ` +
				(isKept
					? 'It is taken as written: correct it if it is not new.'
					: 'It is left empty: correct it, or add it to the site first.'),
	'email-invalid': () => 'This is no e-mail address. It is left empty.',
	formula: () =>
		'This cell starts as a formula. Its text is taken as it stands and nothing is calculated: check that it is meant.',
	'cells-too-many': (found: number, expected: number, isHeld: boolean) =>
		`This row has ${found} cells, the header ${expected}; a delimiter may stand inside a cell without quotes. ` +
		(isHeld
			? 'Its values do not fit their columns, so the row is held back.'
			: 'The cells beyond the header are not used.'),
	'cells-too-few': (found: number, expected: number, isHeld: boolean) =>
		`This row has ${found} ${found === 1 ? 'cell' : 'cells'}, the header ${expected}. ` +
		(isHeld
			? 'Its values do not fit their columns, so the row is held back.'
			: 'The missing cells are taken as empty.'),
	'quote-broken': () =>
		'A quotation mark stands where none may stand, or one is missing. The cell is taken as far as it can be read: check it.',
	'cell-too-long': (length: number, most: number) =>
		`This cell has ${length} characters, more than the ${most} that one may have. It is left out.`,
	'encoding-doubtful': (encoding: string, isKept: boolean) =>
		`This cell does not make sense in the encoding ${encoding}. ` +
		(isKept ? 'It is taken as written: correct it,' : 'It is left empty: correct it,') +
		' or say which encoding the file has.',
	'header-repeated': () => 'This row repeats the header or a title and is passed over.',
	'total-row': () => 'This row holds a total or a remark, no person, and is passed over.'
} as const;

export type ProblemCode = keyof typeof sentences;

/** Every code, in no particular order. */
export const problemCodes = Object.keys(sentences) as readonly ProblemCode[];

/** One thing that is wrong or doubtful in a roster. */
export interface RosterProblem {
	/** The record, counted from 1 as a spreadsheet does. */
	readonly row: number;
	/** The header of the column as written; null where the whole record is meant. */
	readonly column: string | null;
	readonly code: ProblemCode;
	/** What stands there, cut after 200 characters. */
	readonly value: string;
	/** A known value that may be meant. */
	readonly nearest?: string;
	readonly message: string;
}

/** Where a problem is: the record, the column if one is meant, and what stands there. */
export interface ProblemPlace {
	readonly row: number;
	readonly column: string | null;
	readonly value: string;
	readonly nearest?: string | undefined;
}

/** Makes a problem; `details` are what its sentence needs. */
export function problem<Code extends ProblemCode>(
	code: Code,
	{ row, column, value, nearest }: ProblemPlace,
	...details: Parameters<(typeof sentences)[Code]>
): RosterProblem {
	const sentence = sentences[code] as (...details: unknown[]) => string;
	return {
		row,
		column,
		code,
		value: value.length > 200 ? `${value.slice(0, 199)}…` : value,
		...(nearest === undefined ? {} : { nearest }),
		message: sentence(...details)
	};
}
