import type { Rollout } from '../document/schema';
import { isSameJson } from '../document/canonical';
import { type Fault, fault } from '../kernel/fault';
import { type Result, ok, refused } from '../kernel/result';
import type { PersonField } from './fields';
import type { Move, RosterAnswer, RosterChanges, RosterPerson, RosterValue } from './roster-answer';

/**
 * Who wrote a value last: a list (or an identity provider), or somebody here. Of a value without origin only that it came with
 * the document is known.
 */
export interface ValueOrigin {
	readonly by: 'roster' | 'here';
	/** Instant, ISO 8601 in UTC, and the name in the change record. */
	readonly at: string;
	readonly who: string;
	/** The number of the change. */
	readonly change: number;
}

/**
 * What was seen of a value that was entered here when a list was taken over. Where the list said something else, somebody decided
 * that it stays, and that holds while neither changes. Where the list said the same, it agreed: what it says later is news.
 */
export interface KeptValue {
	readonly person: string;
	readonly field: ConflictField;
	/** What the list said; null where it did not name the person any more. */
	readonly said: RosterValue;
	readonly here: RosterValue;
}

/** Where the value of a field comes from. */
export interface FieldOrigin {
	readonly person: string;
	readonly field: PersonField;
	readonly origin: ValueOrigin;
	/** What a list last wrote there before somebody here wrote over it; left out where that is not known. */
	readonly before?: RosterValue;
}

/**
 * Where the values of people come from, as the record of changes tells it. The core keeps no record: whoever has one hands this
 * in. A value that is not named came with the document, or from a list.
 */
export interface Origins {
	readonly fields: readonly FieldOrigin[];
	/** Who added a person, where it was somebody here. */
	readonly added: readonly { readonly person: string; readonly origin: ValueOrigin }[];
	readonly kept: readonly KeptValue[];
}

export type ConflictField = Exclude<PersonField, 'id'>;

/**
 * A value that was entered here, and the list says something else. `value`: a field differs. `missing`: the list no longer names
 * somebody who was added here, or whose last day was entered here, and taking it over would end their employment.
 */
export interface RosterConflict {
	readonly person: string;
	readonly kind: 'value' | 'missing';
	/** The last day where the person is missing. */
	readonly field: ConflictField;
	readonly here: RosterValue;
	/** What the list says; null where the person is missing. */
	readonly roster: RosterValue;
	readonly origin: ValueOrigin;
	/** What the last list had said; undefined where that is not known. */
	readonly before: RosterValue | undefined;
	/** A decision taken before that still holds: nothing is asked. */
	readonly isKept: boolean;
}

export type Choice = 'here' | 'roster';

/** Nothing and an empty list say the same. */
function isSameValue(a: RosterValue, b: RosterValue): boolean {
	const plain = (value: RosterValue): RosterValue => (value !== null && value.length === 0 ? null : value);
	return isSameJson(plain(a), plain(b));
}

/** The key under which a choice about a conflict is kept. */
export function conflictKey({ person, field }: { readonly person: string; readonly field: PersonField }): string {
	return `${field} ${person}`;
}

/**
 * What of a proposal would overwrite what somebody entered here: field by field for those who moved, and those who are missing
 * though they were added here or given a last day here. What the list wrote itself, and what came with the document, it may
 * change.
 */
export function conflictsOf(
	{ moved, left }: RosterChanges,
	into: Pick<Rollout, 'people'>,
	origins: Origins
): readonly RosterConflict[] {
	const kept = new Map(origins.kept.map((one) => [conflictKey(one), one]));
	const entered = new Map(
		origins.fields.filter(({ origin }) => origin.by === 'here').map((one) => [conflictKey(one), one])
	);
	const added = new Map(
		origins.added.filter(({ origin }) => origin.by === 'here').map(({ person, origin }) => [person, origin])
	);
	const conflict = (
		person: string,
		kind: RosterConflict['kind'],
		field: ConflictField,
		[here, roster]: readonly [RosterValue, RosterValue],
		origin: ValueOrigin
	): RosterConflict => {
		const decided = kept.get(conflictKey({ person, field }));
		const isKept = decided !== undefined && isSameValue(decided.said, roster) && isSameValue(decided.here, here);
		return {
			person,
			kind,
			field,
			here,
			roster,
			origin,
			before: entered.get(conflictKey({ person, field }))?.before,
			isKept
		};
	};
	const values = moved.flatMap(({ person, fields }) =>
		(Object.entries(fields) as [ConflictField, readonly [RosterValue, RosterValue]][]).flatMap(([field, both]) => {
			const known = entered.get(conflictKey({ person, field }));
			if (!known || isSaidByList(known, both[0], kept)) return [];
			return [conflict(person, 'value', field, both, known.origin)];
		})
	);
	const personById = new Map(into.people.map((person) => [person.id, person]));
	const missing = left.flatMap((id) => {
		const person = personById.get(id);
		if (!person) return [];
		const last = person.leavesOn === null ? undefined : entered.get(conflictKey({ person: id, field: 'leavesOn' }));
		const origin = last?.origin ?? added.get(id);
		return origin ? [conflict(id, 'missing', 'leavesOn', [person.leavesOn, null], origin)] : [];
	});
	return [...values, ...missing];
}

/** Whether what stands here is what a list says too: it wrote the same before, or agreed with it when it was taken over. */
function isSaidByList(known: FieldOrigin, here: RosterValue, kept: ReadonlyMap<string, KeptValue>): boolean {
	if (known.before !== undefined && isSameValue(known.before, here)) return true;
	const seen = kept.get(conflictKey(known));
	return seen !== undefined && isSameValue(seen.here, here) && isSameValue(seen.said, here);
}

/** Values entered here with which a list agrees. */
export function agreements(
	people: readonly RosterPerson[],
	into: Pick<Rollout, 'people'>,
	origins: Pick<Origins, 'fields'>
): readonly KeptValue[] {
	const said = new Map(people.map((person) => [person.id, person]));
	const present = new Map(into.people.map((person) => [person.id, person]));
	return origins.fields.flatMap(({ person, field, origin }) => {
		const value = said.get(person)?.[field];
		const here = present.get(person)?.[field];
		if (origin.by !== 'here' || field === 'id' || value === undefined || here === undefined) return [];
		return isSameValue(value, here) ? [{ person, field, said: value, here }] : [];
	});
}

/** A proposal as it was decided: what stays as entered here is no longer in it. */
export interface Decided {
	readonly changes: RosterChanges;
	/** Decisions for what was entered here, to be kept. */
	readonly kept: readonly KeptValue[];
}

/**
 * The proposal with every conflict decided. Refused, all at once, while a conflict is without a choice: nothing that was entered
 * here is overwritten unasked.
 */
export function decided(
	{ changes }: Pick<RosterAnswer, 'changes'>,
	conflicts: readonly RosterConflict[],
	choices: ReadonlyMap<string, Choice>
): Result<Decided> {
	const open = conflicts.filter((one) => !one.isKept && !choices.has(conflictKey(one)));
	if (open.length > 0) return refused(open.map(undecided));
	const staying = conflicts.filter((one) => (choices.get(conflictKey(one)) ?? 'here') === 'here');
	return ok({
		changes: withoutStaying(changes, staying),
		kept: staying.map(({ person, field, roster, here }) => ({ person, field, said: roster, here }))
	});
}

/** The proposal as far as it is decided: what is in conflict is left as it is here. For what follows from it, until then. */
export function undisputed(
	changes: RosterChanges,
	conflicts: readonly RosterConflict[],
	choices: ReadonlyMap<string, Choice>
): RosterChanges {
	return withoutStaying(
		changes,
		conflicts.filter((one) => (choices.get(conflictKey(one)) ?? 'here') === 'here')
	);
}

function withoutStaying(changes: RosterChanges, staying: readonly RosterConflict[]): RosterChanges {
	if (staying.length === 0) return changes;
	const values = new Set(staying.filter(({ kind }) => kind === 'value').map(conflictKey));
	const missing = new Set(staying.filter(({ kind }) => kind === 'missing').map(({ person }) => person));
	const moved: Move[] = [];
	const unchanged = [...changes.unchanged];
	for (const move of changes.moved) {
		const fields = Object.entries(move.fields).filter(
			([field]) => !values.has(conflictKey({ person: move.person, field: field as ConflictField }))
		);
		if (fields.length > 0) moved.push({ person: move.person, fields: Object.fromEntries(fields) });
		else unchanged.push(move.person);
	}
	return { ...changes, moved, unchanged, left: changes.left.filter((id) => !missing.has(id)) };
}

function undecided({ person, field, here, roster, kind }: RosterConflict): Fault {
	const said = kind === 'missing' ? 'no longer listed' : JSON.stringify(roster);
	return fault(
		['conflicts', person, field],
		null,
		`a choice between what was entered here, ${JSON.stringify(here)}, and what the list says, ${said}`
	);
}
