import { type PersonField, isListField } from '../fields';
import { problem } from '../problem';
import type { RosterValue } from '../roster-answer';
import { isEmptyCell, saysNothing } from '../values/cell-text';
import { isEmail } from '../values/email';
import type { KnownField, KnownValues } from '../values/known-values';
import type { Plan } from './plan';
import { type RowDraft, textAt } from './row-draft';

/** The values of a row beside id, name and dates; `unread` are the fields whose cell could not be read (told). */
export interface RowValues {
	readonly values: Readonly<Partial<Record<PersonField, RosterValue>>>;
	readonly unread: ReadonlySet<PersonField>;
}

export type Known = Readonly<Record<KnownField, KnownValues>>;

const knownFields: ReadonlySet<PersonField> = new Set<KnownField>([
	'department',
	'shiftPattern',
	'wave',
	'language',
	'workAreas',
	'captureClass'
]);

/**
 * Reads what a row says of its person. Without a document nothing is known of patterns, waves and the like, and their
 * values are taken as they are written; with one, they are taken as the document has them.
 */
export function readValues(draft: RowDraft, plan: Plan, known: Known | undefined): RowValues {
	const values: Partial<Record<PersonField, RosterValue>> = {};
	const unread = new Set<PersonField>();
	for (const [field, column] of plan.others) {
		const text = textAt(draft, column);
		const tell = (nearest?: string) => ({
			row: draft.row,
			column: plan.headers[column] ?? '',
			value: text ?? '',
			nearest
		});
		const isKnown = known !== undefined && isKnownField(field) ? known[field] : undefined;
		if (text === null) {
			values[field] = isListField(field) ? [] : null;
			unread.add(field);
		} else if (field === 'needs' && isYes(text)) {
			// That there is a need is no help to whoever serves it: which one is asked.
			values[field] = [];
			unread.add(field);
			draft.problems.push(problem('value-unknown', tell(), 'need', false, undefined));
		} else if (isListField(field)) {
			const list = isNo(text) ? [] : partsOf(text, isKnown);
			const kept = isKnown ? list.map((part) => taken(part, isKnown)).filter((part) => part !== null) : list;
			values[field] = [...new Set(kept)];
			if (kept.length < list.length) unread.add(field);
		} else if (field === 'email') {
			const isRead = saysNothing(text) || isEmail(text);
			values[field] = isRead && !saysNothing(text) ? text : null;
			if (isRead) continue;
			unread.add(field);
			draft.problems.push(problem('email-invalid', tell()));
		} else if (isKnownField(field) && field !== 'department' && saysNothing(text)) values[field] = null;
		else if (text === '') values[field] = null;
		else {
			const value = isKnown ? taken(text, isKnown) : text;
			values[field] = value;
			if (value === null) unread.add(field);
		}

		function taken(part: string, among: KnownValues): string | null {
			const found = among.find(part);
			if (found !== undefined || !among.isAsked) return found ?? part;
			const nearest = among.nearest(part);
			draft.problems.push(
				problem('value-unknown', { ...tell(nearest), value: part }, among.one, among.keepsUnknown, nearest)
			);
			return among.keepsUnknown ? part : null;
		}
	}
	return { values, unread };
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
