import { doesMatch, matchingAssignments } from '../../access/matching';
import { AccessModel } from '../../access/model';
import type { Assignment, Person, Rollout } from '../../document/schema';

/**
 * Ids of the people of either state whose access may differ, told by what is no longer the same object: an edit leaves
 * everything that it does not touch as it is, so nobody else's access can differ. Cost: one look at everybody.
 */
export function touchedBy(before: Rollout, after: Rollout): ReadonlySet<string> {
	const isEverybody =
		before.doors !== after.doors ||
		before.areas !== after.areas ||
		before.holidays !== after.holidays ||
		before.site !== after.site ||
		before.horizon !== after.horizon;
	if (isEverybody) return new Set([...before.people, ...after.people].map(({ id }) => id));
	return new Set([
		...changedIds(before.people, after.people),
		...matchedBy(before, after),
		...matchedBy(after, before)
	]);
}

/** A model of some of the people only; `like`: the model of a state that is nearly the same. */
export function modelOf(rollout: Rollout, people: ReadonlySet<string>, like: AccessModel): AccessModel {
	const present = rollout.people.filter(({ id }) => people.has(id));
	return new AccessModel(rollout, undefined, present, like);
}

/**
 * People of a state matched by an assignment that differs from the other state's in what it gives or when; where it differs
 * only in whom it names, those whom it matches in one of the states only.
 */
function matchedBy(state: Rollout, other: Rollout): string[] {
	const groups = changedIds(state.doorGroups, other.doorGroups);
	const schedules = changedIds(state.schedules, other.schedules);
	const profiles = changedIds(state.accessProfiles, other.accessProfiles);
	for (const { id, entries } of state.accessProfiles) {
		if (entries.some(({ doorGroup, schedule }) => groups.has(doorGroup) || schedules.has(schedule))) profiles.add(id);
	}
	const changed = changedIds(state.assignments, other.assignments);
	const byId = new Map(other.assignments.map((assignment) => [assignment.id, assignment]));
	const people = new Set<string>();
	for (const assignment of state.assignments) {
		const { id, accessProfile, from, until } = assignment;
		if (!changed.has(id) && !profiles.has(accessProfile)) continue;
		const before = byId.get(id);
		const isSameGift =
			!profiles.has(accessProfile) &&
			before?.accessProfile === accessProfile &&
			before.from === from &&
			before.until === until;
		for (const person of matchedIn(state, assignment)) {
			if (!isSameGift || !doesMatch(before, person)) people.add(person.id);
		}
	}
	return [...people];
}

function matchedIn(state: Rollout, assignment: Assignment): Person[] {
	const matching = matchingAssignments({ assignments: [assignment] });
	return state.people.filter((person) => matching(person).length > 0);
}

/** Ids whose entry is not the same object in both lists. */
function changedIds(
	before: readonly { readonly id: string }[],
	after: readonly { readonly id: string }[]
): Set<string> {
	return before === after ? new Set() : new Set(differing(before, after).map(({ id }) => id));
}

function differing<T>(before: readonly T[], after: readonly T[]): T[] {
	const [old, now] = [new Set(before), new Set(after)];
	return [...before.filter((one) => !now.has(one)), ...after.filter((one) => !old.has(one))];
}
