import { personFields } from '../fields';
import { type RosterProblem, problem } from '../problem';
import type { RosterPerson } from '../roster-answer';
import { foldedName } from '../values/person-names';
import type { Plan } from './plan';
import type { ReadPerson } from './read-people';

/** A person of the roster (with the row) or of the document (without). */
interface Named {
	readonly person: RosterPerson;
	readonly row: number | undefined;
}

/** A person who may be the same as another. */
interface Candidate extends Named {
	/** Address and first day as they are compared; empty where there is none. */
	readonly email: string;
	readonly startsOn: string;
}

function candidate({ person, row }: Named): Candidate {
	return { person, row, email: person.email?.toLowerCase() ?? '', startsOn: person.startsOn ?? '' };
}

/** So many of one name are compared with the next one; a list in which all have one name must not take forever. */
const mostCompared = 50;

/**
 * Tells rows with different ids that are the same person by all else. Two people may have one name, so the name alone
 * is never enough: the first day or the e-mail address must agree too, or two of the other fields, and no field may
 * differ where both have one; but with one name, one address and no two first days, the rest may have changed since. A
 * joined person is also held against those of the document that are missing: their id may have changed. Pairs that are
 * `apart` are known to be two people.
 */
export function findSamePeople(
	people: readonly ReadPerson[],
	plan: Plan,
	missing: readonly RosterPerson[],
	isNew: (id: string) => boolean,
	apart: readonly (readonly [string, string])[] = []
): RosterProblem[] {
	const column = plan.id === undefined ? null : (plan.headers[plan.id] ?? '');
	const known = new Set(apart.map(pairKey));
	const problems: RosterProblem[] = [];
	for (const group of namesakes(people, missing)) {
		const byKey = new Map<string, Candidate[]>();
		for (const one of group) {
			const { person, row } = one;
			const same =
				row === undefined
					? undefined
					: firstOf(asked(one), byKey, (other) => {
							if (!agree(one, other) || known.has(pairKey([person.id, other.person.id]))) return false;
							return other.row !== undefined || (isNew(person.id) && isSurelyTelling(one, other));
						});
			if (same && row !== undefined) {
				const place = same.row === undefined ? 'at the site, who is missing here' : `in row ${same.row}`;
				problems.push(
					problem('same-person', { row, column, value: person.id, nearest: same.person.id }, same.person.id, place)
				);
			}
			add(byKey, one);
		}
	}
	return problems;
}

/**
 * People of one name, of whom one at least is in the roster: those who are missing first, then the roster in its order.
 * Whose name nobody shares is in no group, which is most people: nothing more is asked of them.
 */
function namesakes(people: readonly ReadPerson[], missing: readonly RosterPerson[]): Candidate[][] {
	const first = new Map<string, Named | Candidate[]>();
	const groups: Candidate[][] = [];
	const put = (one: Named): void => {
		const { name } = one.person;
		if (!name) return;
		const key = foldedName(name);
		const there = first.get(key);
		if (there === undefined) first.set(key, one);
		else if (Array.isArray(there)) there.push(candidate(one));
		else {
			const group = [candidate(there), candidate(one)];
			first.set(key, group);
			groups.push(group);
		}
	};
	for (const person of missing) put({ person, row: undefined });
	for (const one of people) put(one);
	return groups;
}

/** One key for two ids, in whatever order. */
export function pairKey(ids: readonly [string, string]): string {
	return JSON.stringify([...ids].sort());
}

/** The first candidate under any of the keys that is meant. */
function firstOf(
	keys: readonly string[],
	byKey: ReadonlyMap<string, readonly Candidate[]>,
	isMeant: (candidate: Candidate) => boolean
): Candidate | undefined {
	for (const key of keys) {
		const found = byKey.get(key)?.find(isMeant);
		if (found) return found;
	}
	return undefined;
}

/** Under what a person is found among those of the name: the address, the first day, and which of the two are there. */
function listedUnder({ email, startsOn }: Candidate): string[] {
	const keys = [`${email ? 1 : 0}${startsOn ? 1 : 0}`];
	if (email !== '') keys.push(`@${email}`);
	if (startsOn !== '') keys.push(`on ${startsOn}`);
	return keys;
}

/**
 * Under what the same person would be found: with the same address or first day; or, where one of the two has no
 * address and one no first day, with the rest.
 */
function asked(one: Candidate): string[] {
	const others = ['00', ...(one.email ? [] : ['10']), ...(one.startsOn ? [] : ['01'])];
	if (!one.email && !one.startsOn) others.push('11');
	return [...listedUnder(one).slice(1), ...others];
}

function add(byKey: Map<string, Candidate[]>, one: Candidate): void {
	for (const key of listedUnder(one)) {
		const list = byKey.get(key);
		if (!list) byKey.set(key, [one]);
		else if (list.length < mostCompared) list.push(one);
	}
}

const compared = personFields.filter((field) => field !== 'id' && field !== 'name');

function agree(a: Candidate, b: Candidate): boolean {
	const isOneAddress = a.email !== '' && a.email === b.email;
	const isOneStart = a.startsOn !== '' && a.startsOn === b.startsOn;
	// Two addresses, or two first days, are two people; asked first, as it settles nearly every pair.
	if (a.email !== '' && b.email !== '' && !isOneAddress) return false;
	if (a.startsOn !== '' && b.startsOn !== '' && !isOneStart) return false;
	if (isOneAddress) return true;
	let equal = 0;
	for (const field of compared) {
		const [one, other] = [textOf(a.person[field]), textOf(b.person[field])];
		if (one === '' || other === '') continue;
		if (one !== other) return false;
		equal++;
	}
	return isOneStart || equal >= 2;
}

function isSurelyTelling(a: Candidate, b: Candidate): boolean {
	if (a.email !== '' && a.email === b.email) return true;
	const department = textOf(a.person.department);
	return (
		a.startsOn !== '' && a.startsOn === b.startsOn && department !== '' && department === textOf(b.person.department)
	);
}

function textOf(value: string | null | undefined | readonly string[]): string {
	if (value === null || value === undefined) return '';
	return (typeof value === 'string' ? value : [...value].sort().join('\n')).toLowerCase();
}
