import { problem } from '../problem';
import { areLastFirst, turnedName } from '../values/person-names';
import type { Plan } from './plan';
import { type RowDraft, textAt } from './row-draft';

/**
 * Reads the names of rows: parts in several columns are joined by a space, given names first; a single one is kept as it
 * is written, but turned where the whole column is written `Last, First`. Empty where a row has none (told), null where
 * it cannot be read. In the order of the drafts.
 */
export function readNames(drafts: readonly RowDraft[], plan: Plan): readonly (string | null)[] {
	const [first, ...others] = plan.names;
	const written = drafts.map((draft): string | null => {
		if (others.length === 0) return textAt(draft, first);
		const parts = plan.names.map((column) => textAt(draft, column));
		return parts.includes(null) ? null : parts.filter((part) => part !== '').join(' ');
	});
	const column = first === undefined ? null : (plan.headers[first] ?? '');
	for (const [index, { row, problems }] of drafts.entries()) {
		if (written[index] === '') problems.push(problem('name-missing', { row, column, value: '' }));
	}
	const some = written.filter((name): name is string => name !== null && name !== '');
	const areTurned = others.length === 0 && areLastFirst(some, plan.isFamilyFirst);
	return areTurned ? written.map((name) => (name === null ? null : turnedName(name))) : written;
}
