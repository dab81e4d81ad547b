import { problem } from '../problem';
import { type Damage, damageOf, surveyIds } from '../values/ids';
import type { Plan } from './plan';
import { type RowDraft, textAt } from './row-draft';

/** The id of a row, or why there is none to go by. */
export interface RowId {
	readonly id: string | undefined;
	/** The id as it stands in a row that is held back, and what it may have been. */
	readonly heldAs: string | undefined;
	readonly likely: string | undefined;
}

const noId: RowId = { id: undefined, heldAs: undefined, likely: undefined };

/**
 * Reads the ids of rows: missing, damaged and repeated ones are told and hold their row back. Of rows with one id the
 * first stays. In the order of the drafts.
 */
export function readIds(drafts: readonly RowDraft[], plan: Plan, hasPerson: (id: string) => boolean): readonly RowId[] {
	const column = plan.id === undefined ? null : (plan.headers[plan.id] ?? '');
	const texts = drafts.map((draft) => textAt(draft, plan.id));
	const survey = surveyIds(texts.filter((text): text is string => text !== null && text !== ''));
	const rowById = new Map<string, number>();
	return drafts.map(({ row, problems }, index): RowId => {
		const text = texts[index] ?? null;
		if (text === null || text === '') {
			// What cannot be read was told when the cell was read.
			if (text === '') problems.push(problem('id-missing', { row, column, value: '' }));
			return noId;
		}
		// What is damaged is no id that could be repeated: two that look alike now may have been two people's.
		const damage: Damage | undefined = damageOf(text, survey, hasPerson);
		const first = damage ? undefined : rowById.get(text);
		if (damage) {
			const { why, likely } = damage;
			problems.push(problem('id-damaged', { row, column, value: text, nearest: likely }, text, why, likely));
		} else if (first !== undefined) problems.push(problem('id-repeated', { row, column, value: text }, text, first));
		else rowById.set(text, row);
		const isHeld = first !== undefined || damage !== undefined;
		return { id: isHeld ? undefined : text, heldAs: isHeld ? text : undefined, likely: damage?.likely };
	});
}
