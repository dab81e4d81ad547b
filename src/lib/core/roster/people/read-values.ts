import { type PersonField, isListField } from '../fields';
import { type ProblemPlace, problem } from '../problem';
import type { RosterValue } from '../roster-answer';
import { isEmptyCell, saysNothing } from '../values/cell-text';
import { isEmail } from '../values/email';
import type { KnownField, KnownValues } from '../values/known-values';
import type { Plan } from './plan';
import { type RowDraft, textAt } from './row-draft';

export type Known = Readonly<Record<KnownField, KnownValues>>;

const knownFields: ReadonlySet<PersonField> = new Set<KnownField>([
	'department',
	'shiftPattern',
	'wave',
	'language',
	'workAreas',
	'captureClass'
]);

/** What a cell says: a value, null for none; `whole` is false where something in it could not be read (told). */
interface ReadCell {
	readonly value: RosterValue;
	readonly isWhole: boolean;
}

const nothing: ReadCell = { value: null, isWhole: true };

/**
 * Reads what a row says of its person beside id, name and dates, puts it into `values`, and gives the fields whose cell could not
 * be read (told). Without a document nothing is known of patterns, waves and the like, and their values are taken as
 * they are written; with one, they are taken as the document has them.
 */
export function readValues(
	draft: RowDraft,
	plan: Plan,
	known: Known | undefined,
	values: Partial<Record<PersonField, RosterValue>>
): readonly PersonField[] {
	let unread: PersonField[] = allRead;
	for (const [field, column] of plan.others) {
		const cell = readCell(draft, field, column, plan, known);
		values[field] = cell.value;
		if (!cell.isWhole) unread = [...unread, field];
	}
	return unread;
}

/** For all rows of which everything could be read: one list for many thousands. */
const allRead: PersonField[] = [];

function readCell(draft: RowDraft, field: PersonField, column: number, plan: Plan, known: Known | undefined): ReadCell {
	const text = textAt(draft, column);
	if (text === null) return { value: isListField(field) ? [] : null, isWhole: false };
	const isAmong = isKnownField(field);
	const place = { row: draft.row, column: plan.headers[column] ?? '', value: text };
	if (isListField(field)) {
		if (field === 'needs' && isYes(text)) {
			// That there is a need is no help to whoever serves it: which one is asked.
			draft.problems.push(problem('value-unknown', place, 'need', false, undefined));
			return { value: [], isWhole: false };
		}
		const among = known && isAmong ? known[field] : undefined;
		const list = isNo(text) ? [] : partsOf(text, among);
		const kept = among ? list.flatMap((part) => taken(part, among, draft, place) ?? []) : list;
		return { value: [...new Set(kept)], isWhole: kept.length === list.length };
	}
	if (field === 'email') {
		if (isEmail(text)) return { value: text, isWhole: true };
		if (saysNothing(text)) return nothing;
		draft.problems.push(problem('email-invalid', place));
		return { value: null, isWhole: false };
	}
	if (text === '' || (isAmong && field !== 'department' && saysNothing(text))) return nothing;
	if (!known || !isAmong) return { value: text, isWhole: true };
	const value = taken(text, known[field], draft, place);
	return { value, isWhole: value !== null };
}

/** A value as the document has it; told, and kept or not, where it has none such. */
function taken(part: string, among: KnownValues, draft: RowDraft, place: ProblemPlace): string | null {
	const found = among.find(part);
	if (found !== undefined || !among.isAsked) return found ?? part;
	const nearest = among.nearest(part);
	draft.problems.push(
		problem('value-unknown', { ...place, nearest, value: part }, among.one, among.keepsUnknown, nearest)
	);
	return among.keepsUnknown ? part : null;
}

function isKnownField(field: PersonField): field is KnownField {
	return knownFields.has(field);
}

/** The parts of a list in one cell; a name that is known as a whole is one part, whatever stands in it. */
function partsOf(text: string, known: KnownValues | undefined): string[] {
	if (known?.find(text) !== undefined) return [text];
	return text
		.split(/[;,|\r\n]+|\s\/\s/)
		.map((part) => part.trim())
		.filter((part) => part !== '');
}

/** True for a cell that says yes, in the five languages. */
function isYes(text: string): boolean {
	return /^(?:yes|y|ja|j|oui|o|s[íi]|tak|t|true|wahr|vrai|verdadero|prawda|x|1|✓|✔)$/i.test(text);
}

/** True for a list that says that there is nothing to list, in the five languages. */
function isNo(text: string): boolean {
	return (
		isEmptyCell(text) || saysNothing(text) || /^(?:no|nein|non|nie|n|0|false|falsch|faux|falso|fałsz)$/i.test(text)
	);
}
