import type { LocalDate } from '../../calendar/local-date';
import type { Rollout } from '../../document/schema';
import { changesFor } from '../compare-with';
import type { ReadPerson } from '../people/read-people';
import type { Known } from '../people/read-values';
import { problem } from '../problem';
import type { Move, RosterPerson } from '../roster-answer';
import { takingOver } from '../taking-over';
import { knownValuesOf } from '../values/known-values';
import { isActive, personOfUser } from './person-of-user';
import type { JsonObject } from './scim-result';

/** A user as the identity provider last had it. */
export interface DirectoryEntry {
	/** In the order of arrival, from 1. */
	readonly number: number;
	/** The id of the person. */
	readonly person: string;
	/** Null where the provider deleted the user. */
	readonly user: JsonObject | null;
	/** The day on which the provider said last that the user is gone; null where it never did. */
	readonly endedOn: LocalDate | null;
}

/** Something wrong or doubtful with what a provider sent. */
export interface DirectoryProblem {
	readonly person: string;
	/** Null where the user as a whole is meant. */
	readonly attribute: string | null;
	readonly code: string;
	readonly value: string;
	readonly message: string;
}

/** What taking over what the provider sent would change. Whoever the provider never named is in none of the lists. */
export interface DirectoryProposal {
	readonly people: readonly RosterPerson[];
	readonly problems: readonly DirectoryProblem[];
	readonly changes: {
		readonly joined: readonly string[];
		readonly moved: readonly Move[];
		readonly left: readonly { readonly person: string; readonly leavesOn: LocalDate }[];
		readonly unchanged: readonly string[];
	};
}

/**
 * Compares what a provider sent with a rollout, by the rules for staff lists. A leaver is proposed with the earlier of the last
 * day that was sent and the day on which the provider said so; an earlier last day here stays. Whoever comes back loses the last
 * day that came from the provider, and no other.
 */
export function proposalOf(entries: readonly DirectoryEntry[], rollout: Rollout): DirectoryProposal {
	const known = knownValuesOf(rollout);
	const before = new Map(rollout.people.map((person) => [person.id, person]));
	const problems: DirectoryProblem[] = [];
	const active = new Map<string, ReadPerson>();
	for (const { number, person: id, user, endedOn } of entries) {
		if (user === null || !isActive(user) || active.has(id)) continue;
		const read = personOfUser(user, id, number, known);
		problems.push(
			...read.problems.map(({ column, code, value, message }) => ({
				person: id,
				attribute: column,
				code,
				value,
				message: inWordsOfUsers(message)
			}))
		);
		const lastDay = before.get(id)?.leavesOn ?? null;
		const isBack = read.person.leavesOn === undefined && lastDay !== null;
		if (isBack && lastDay === endedOn) {
			active.set(id, { ...read, person: { ...read.person, leavesOn: null } });
			continue;
		}
		if (isBack && endedOn !== null) problems.push(stillLeaving(id, lastDay));
		active.set(id, read);
	}
	const left = leavers(entries, active, before, known, problems);
	const { joined, moved, unchanged } = changesFor([...active.values()], [], rollout);
	return {
		people: [...active.values()].map(({ person }) => person),
		problems,
		changes: { joined, moved, left, unchanged }
	};
}

function leavers(
	entries: readonly DirectoryEntry[],
	active: ReadonlyMap<string, ReadPerson>,
	before: ReadonlyMap<string, Rollout['people'][number]>,
	known: Known,
	problems: DirectoryProblem[]
): { person: string; leavesOn: LocalDate }[] {
	const left = new Map<string, LocalDate>();
	for (const { person: id, endedOn: toldOn, user, number } of entries) {
		const person = before.get(id);
		if (!person || toldOn === null || active.has(id)) continue;
		const sent = user === null ? undefined : personOfUser(user, id, number, known).person.leavesOn;
		const endedOn = sent && sent < toldOn ? sent : toldOn;
		if (person.leavesOn !== null && person.leavesOn <= endedOn) continue;
		if (person.startsOn !== null && person.startsOn > endedOn) {
			const place = { row: 1, column: 'active', value: endedOn };
			const { code, value, message } = problem('leaves-before-start', place, person.startsOn, endedOn);
			problems.push({ person: id, attribute: 'active', code, value, message });
			continue;
		}
		left.set(id, endedOn);
	}
	return [...left].map(([person, leavesOn]) => ({ person, leavesOn }));
}

function stillLeaving(person: string, leavesOn: LocalDate): DirectoryProblem {
	const message = `The provider has this person back, and the last day here, ${leavesOn}, is another than it had told: decide here.`;
	return { person, attribute: 'active', code: 'leaves-here', value: leavesOn, message };
}

/** The sentences of staff lists speak of rows. */
function inWordsOfUsers(message: string): string {
	return message.replace('This row has', 'This user has');
}

/** The change that takes a proposal over, or a part of it; null where there is nothing to do. */
export interface Acceptance {
	readonly edits: readonly { readonly edit: 'apply-roster'; readonly params: Readonly<Record<string, unknown>> }[];
	readonly what: string;
}

/** How `all-of` takes over what is proposed for these people: everybody where left out. */
export function acceptanceOf(proposal: DirectoryProposal, only?: ReadonlySet<string>): Acceptance | null {
	const { people, changes } = proposal;
	const isWanted = (id: string): boolean => only?.has(id) ?? true;
	const taken = takingOver({ people, changes: { ...changes, left: [] } }, { only });
	const joined = changes.joined.filter(isWanted).length;
	const left = changes.left.filter(({ person }) => isWanted(person));
	const edits: Acceptance['edits'][number][] = [];
	if (taken.people.length > 0) edits.push({ edit: 'apply-roster', params: { ...taken } });
	for (const leavesOn of new Set(left.map((one) => one.leavesOn))) {
		const ids = left.filter((one) => one.leavesOn === leavesOn).map(({ person }) => person);
		edits.push({ edit: 'apply-roster', params: { people: [], leave: { ids, leavesOn } } });
	}
	if (edits.length === 0) return null;
	const parts = [`${joined} joined`, `${taken.people.length - joined} changed`, `${left.length} left`];
	return { edits, what: `From the identity provider: ${parts.join(', ')}` };
}

/**
 * Whether so many leave that it wants a second look, as with a staff list in which half of the people are missing: four or more,
 * and half of those employed or more.
 */
export function areManyLeaving(leaving: number, employed: number): boolean {
	return leaving >= 4 && leaving * 2 >= employed;
}
