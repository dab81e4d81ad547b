import { isSameJson } from '../../document/canonical';
import { type EntryOf, entriesOf } from '../../document/lists';
import type { RolloutDocument } from '../../document/schema';
import { fieldOf } from '../../document/walk';
import { type Fault, type PathStep, fault } from '../../kernel/fault';
import { isErasedAt } from './erasure-order';

const wanted = 'here two people confirm an erasure, on a work order';

/**
 * What would make a template count as erased past the second person, where the site wants one: an erasure that was not on
 * record, and a place that is left and no longer named. Erasures may be taken away: that only opens the place again.
 * @param before the template as it is; undefined for a new one
 * @param after the entry as it would be, not validated yet
 * @param at where its fields stand among the parameters
 */
export function pastSecondPerson(
	document: RolloutDocument,
	before: EntryOf<'templates'> | undefined,
	after: unknown,
	at: readonly PathStep[]
): Fault[] {
	if (document.privacy?.erasureRules?.secondPerson !== true) return [];
	const known = before?.erasures ?? [];
	const faults = listOf(after, 'erasures').flatMap((one, place) =>
		known.some((old) => isSameJson(old, one))
			? []
			: [fault([...at, 'erasures', place], one, `an erasure that is on record already: ${wanted}`)]
	);
	const named = listOf(after, 'storedOn');
	const lost = (before?.storedOn ?? []).filter(
		(place) => before !== undefined && !isErasedAt(before, place) && !named.includes(place)
	);
	if (lost.length > 0) {
		const expected = `a list that still names ${lost.join(', ')}, where the template is left: ${wanted}`;
		faults.push(fault([...at, 'storedOn'], named, expected));
	}
	// An earlier day of enrollment would let an erasure count that was dated before it.
	const from = fieldOf(after, 'enrolledOn');
	if (before !== undefined && typeof from === 'string' && from < before.enrolledOn) {
		const moved = { ...before, enrolledOn: from } as EntryOf<'templates'>;
		if (before.storedOn.some((place) => !isErasedAt(before, place) && isErasedAt(moved, place))) {
			faults.push(fault([...at, 'enrolledOn'], from, `a day after the erasures that do not count yet: ${wanted}`));
		}
	}
	return faults;
}

/** What keeps a template from being removed where the site wants a second person: places where it is left, which nobody would look at. */
export function leftUnseen(document: RolloutDocument, template: EntryOf<'templates'> | undefined): Fault[] {
	if (document.privacy?.erasureRules?.secondPerson !== true || template === undefined) return [];
	const left = template.storedOn.filter((place) => !isErasedAt(template, place));
	if (left.length === 0) return [];
	const expected = `a template that is erased everywhere; this one is left on ${left.join(', ')}: ${wanted}`;
	return [fault(['at'], template.person, expected)];
}

/** The template at a place of the list. */
export function templateAt(document: RolloutDocument, place: number): EntryOf<'templates'> | undefined {
	return entriesOf(document, 'templates')[place];
}

function listOf(entry: unknown, key: string): readonly unknown[] {
	const value = fieldOf(entry, key);
	return Array.isArray(value) ? value : [];
}
