import { personFields } from '../fields';
import { type RosterProblem, problem } from '../problem';
import type { RosterPerson } from '../roster-answer';
import { foldedName } from '../values/person-names';
import type { Plan } from './plan';
import type { ReadPerson } from './read-people';

/** A person of the document that the roster has no row for. */
export interface AbsentPerson extends RosterPerson {
	readonly id: string;
}

/**
 * Tells rows with different ids that are the same person by all else. Two people may have one name, so the name alone
 * is never enough: the first day or the e-mail address must agree too, or two of the other fields, and no field may
 * differ where both have one; but with one name, one address and no two first days, the rest may have changed since. A
 * joined person is also held against those of the document that are missing: their id may have changed.
 */
export function findSamePeople(
	people: readonly ReadPerson[],
	plan: Plan,
	missing: readonly AbsentPerson[],
	isNew: (id: string) => boolean
): RosterProblem[] {
	const column = plan.id === undefined ? null : (plan.headers[plan.id] ?? '');
	const byName = new Map<string, { readonly person: RosterPerson; readonly row: number | undefined }[]>();
	for (const person of missing) listed(byName, person, undefined);
	const problems: RosterProblem[] = [];
	for (const { row, person } of people) {
		const others = byName.get(nameKey(person)) ?? [];
		const same = others.find((other) =>
			other.row === undefined
				? isNew(person.id) && agree(person, other.person) && isSurelyTelling(person, other.person)
				: agree(person, other.person)
		);
		if (same) {
			const place = same.row === undefined ? 'at the site, who is missing here' : `in row ${same.row}`;
			problems.push(
				problem('same-person', { row, column, value: person.id, nearest: same.person.id }, same.person.id, place)
			);
		}
		listed(byName, person, row);
	}
	return problems;
}

function nameKey(person: RosterPerson): string {
	return person.name ? foldedName(person.name) : '';
}

function listed(
	byName: Map<string, { readonly person: RosterPerson; readonly row: number | undefined }[]>,
	person: RosterPerson,
	row: number | undefined
): void {
	const key = nameKey(person);
	if (key === '') return;
	const list = byName.get(key);
	if (list) list.push({ person, row });
	else byName.set(key, [{ person, row }]);
}

const compared = personFields.filter((field) => field !== 'id' && field !== 'name');

function agree(a: RosterPerson, b: RosterPerson): boolean {
	let equal = 0;
	let differing = 0;
	for (const field of compared) {
		const [one, other] = [textOf(a[field]), textOf(b[field])];
		if (one === '' || other === '') continue;
		if (one === other) equal++;
		else differing++;
	}
	const isOneAddress = sameText(a.email, b.email);
	if (differing > 0) return isOneAddress && !(a.startsOn && b.startsOn && a.startsOn !== b.startsOn);
	return isOneAddress || sameText(a.startsOn, b.startsOn) || equal >= 2;
}

function isSurelyTelling(a: RosterPerson, b: RosterPerson): boolean {
	return sameText(a.email, b.email) || (sameText(a.startsOn, b.startsOn) && sameText(a.department, b.department));
}

function sameText(a: string | null | undefined, b: string | null | undefined): boolean {
	return textOf(a) !== '' && textOf(a) === textOf(b);
}

function textOf(value: string | null | undefined | readonly string[]): string {
	if (value === null || value === undefined) return '';
	return (typeof value === 'string' ? value : [...value].sort().join('\n')).toLowerCase();
}
