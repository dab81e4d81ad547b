import { isSameJson } from '../core/document/canonical';
import { fieldOf } from '../core/document/walk';
import { groupBy } from '../core/kernel/group-by';
import { type PersonField, personFields } from '../core/roster/fields';
import type { FieldOrigin, Origins, ValueOrigin } from '../core/roster/origins';
import type { RosterValue } from '../core/roster/roster-answer';
import { load } from './open-rollouts';
import { rosterMemory } from './roster-memory';
import type { EntryChange } from './store/change-repository';
import { store } from './store/current';

/**
 * Where the values of people come from, derived from the record of changes: who wrote a field last, a list (the edit
 * `apply-roster`, also where an identity provider is behind it) or somebody here. What was taken back never counts.
 */

/** The origins of everything that was entered here, and what was decided about it; what else there is came with lists or the document. */
export function originsEntered(rollout: string): Origins {
	const loaded = load(rollout);
	const { kept } = rosterMemory(rollout);
	if (!loaded) return { fields: [], added: [], kept };
	const touched = store().changes.entriesTouchedBeside(rollout, 'people', 'apply-roster');
	const ids = idByPiece(loaded);
	const fields: FieldOrigin[] = [];
	const added: { person: string; origin: ValueOrigin }[] = [];
	const history = store().changes.entryHistory(
		rollout,
		'people',
		touched.filter((number) => ids.has(number))
	);
	for (const [piece, changes] of groupBy(history, (one) => one.piece)) {
		const person = ids.get(piece);
		if (person === undefined) continue;
		const known = originsOf(person, changes);
		fields.push(...known.fields.filter(({ origin }) => origin.by === 'here'));
		if (known.added?.by === 'here') added.push({ person, origin: known.added });
	}
	return { fields, added, kept };
}

/** Where each field of one person comes from; a field that is not named came with the document. */
export function originsOfPerson(rollout: string, person: string): readonly FieldOrigin[] {
	const loaded = load(rollout);
	const piece = loaded && [...idByPiece(loaded)].find(([, id]) => id === person)?.[0];
	return piece === undefined ? [] : originsOf(person, store().changes.entryHistory(rollout, 'people', [piece])).fields;
}

function idByPiece({ open, layout }: NonNullable<ReturnType<typeof load>>): ReadonlyMap<number, string> {
	const slots = layout.get('people') ?? [];
	return new Map(open.rollout.people.map(({ id }, index) => [slots[index]?.number ?? 0, id]));
}

function originsOf(
	person: string,
	changes: readonly EntryChange[]
): { readonly fields: readonly FieldOrigin[]; readonly added: ValueOrigin | undefined } {
	const fields = new Map<PersonField, FieldOrigin>();
	const said = new Map<PersonField, RosterValue>();
	let added: ValueOrigin | undefined;
	for (const change of changes) {
		const { at, who, before, after } = change;
		// What was done can have been taken out of the record; then nothing is known of it.
		if (before === null && after === null) continue;
		const by = writerOf(change);
		if (before === null && by !== 'document') added = { by, at, who, change: change.change };
		for (const field of personFields) {
			const [old, value] = [valueOf(before, field), valueOf(after, field)];
			if (field === 'id' || isSameJson(old, value)) continue;
			if (by === 'document') {
				fields.delete(field);
				continue;
			}
			const last = said.get(field);
			if (by === 'roster') said.set(field, value);
			fields.set(field, {
				person,
				field,
				origin: { by, at, who, change: change.change },
				...(by === 'here' && last !== undefined ? { before: last } : {})
			});
		}
	}
	return { fields: [...fields.values()], added };
}

/** What is left out, null, and an empty list say the same. */
function valueOf(entry: unknown, field: PersonField): RosterValue {
	const value = (fieldOf(entry, field) ?? null) as RosterValue;
	return Array.isArray(value) && value.length === 0 ? null : value;
}

function writerOf({ edit, params }: EntryChange): 'roster' | 'here' | 'document' {
	if (edit === 'apply-roster') return 'roster';
	if (edit === 'replace-document') return 'document';
	if (edit !== 'all-of') return 'here';
	const parts = fieldOf(params(), 'edits');
	const isList = Array.isArray(parts) && parts.every((part) => fieldOf(part, 'edit') === 'apply-roster');
	return isList ? 'roster' : 'here';
}
