import type { ToldGroups } from '$lib/core/access/told-groups';
import type { EntryChange } from '$lib/core/document/rollout-diff';

const mostPeople = 60;

/** The groups of one page of a sheet, people cut to those that are read, and the figures of all. */
export function groupsView({ total, groups, rest }: ToldGroups, from: number, count: number) {
	return {
		total,
		rest,
		count: groups.length,
		groups: groups.slice(from, from + count).map(({ people, variants, ...group }) => ({
			...group,
			count: people.length,
			people: people.slice(0, mostPeople),
			variants: variants.map(({ people: own, ...variant }) => ({ ...variant, count: own.length }))
		}))
	};
}

/** An entry that differs, its fields in words. */
export function entryView({ fields, ...entry }: EntryChange) {
	return {
		...entry,
		fields: fields.map(({ field, before, after }) => ({ field, before: wordsOf(before), after: wordsOf(after) }))
	};
}

/** A value of the document in a table: lists of words as they are said, what has more inside as JSON. */
function wordsOf(value: unknown): string {
	if (value === null || value === undefined || (Array.isArray(value) && value.length === 0)) return 'nothing';
	if (Array.isArray(value) && value.every((one) => typeof one === 'string')) return value.join(', ');
	return typeof value === 'string' ? value : JSON.stringify(value);
}
