import type { LocalDate } from '../calendar/local-date';
import type { RosterAnswer, RosterPerson, RosterValue } from './roster-answer';

/** The parameters with which the edit `apply-roster` takes a proposal over. */
export interface TakingOver {
	/** New people with all that is known of them; of those who are there, the id and the fields that change. */
	readonly people: readonly Readonly<Record<string, unknown>>[];
	/** Of those who are there, the changing fields as they were when the proposal was made. */
	readonly was: readonly Readonly<Record<string, unknown>>[];
	readonly renumber?: readonly Renumber[];
	readonly leave: { readonly ids: readonly string[]; readonly leavesOn: LocalDate } | null;
}

/** A person who has another number now: the one in the document, and the one in the list. */
export interface Renumber {
	readonly at: string;
	readonly to: string;
}

export interface TakingOverOptions {
	/** The last day of those who left; without it nobody's employment is ended. */
	readonly leavesOn?: LocalDate | undefined;
	/** Takes over only what concerns these people; everybody where left out. */
	readonly only?: ReadonlySet<string> | undefined;
}

/**
 * Makes of a proposal what the edit takes: whoever joined, the changed fields of whoever moved, the last day of whoever
 * left. A last day before the first one was told and is left out, so that one wrong row does not stop the others.
 */
export function takingOver(
	answer: Pick<RosterAnswer, 'people' | 'changes'>,
	{ leavesOn, only }: TakingOverOptions = {}
): TakingOver {
	const isWanted = (id: string): boolean => only?.has(id) ?? true;
	const personById = new Map(answer.people.map((person) => [person.id, person]));
	const joined = answer.changes.joined.filter(isWanted).flatMap((id) => {
		const person = personById.get(id);
		return person ? [newPerson(person)] : [];
	});
	const moved = answer.changes.moved
		.filter(({ person }) => isWanted(person))
		.map(({ person, fields }) => {
			const isContradicted = contradictsItself(personById.get(person));
			const changing = Object.entries<readonly [RosterValue, RosterValue]>(fields).filter(
				([field]) => !(field === 'leavesOn' && isContradicted)
			);
			return { person, changing };
		})
		.filter(({ changing }) => changing.length > 0);
	const ids = answer.changes.left.filter(isWanted);
	return {
		people: [
			...joined,
			...moved.map(({ person, changing }) => ({
				id: person,
				...Object.fromEntries(changing.map(([field, [, value]]) => [field, value]))
			}))
		],
		was: moved.map(({ person, changing }) => ({
			id: person,
			...Object.fromEntries(changing.map(([field, [old]]) => [field, old]))
		})),
		leave: leavesOn === undefined || ids.length === 0 ? null : { ids, leavesOn }
	};
}

/** A person without the fields in which there is nothing. */
function newPerson(person: RosterPerson): Readonly<Record<string, unknown>> {
	const isContradicted = contradictsItself(person);
	return Object.fromEntries(
		Object.entries(person).filter(([field, value]: [string, RosterValue]) => {
			if (field === 'leavesOn' && isContradicted) return false;
			return value !== null && value.length > 0;
		})
	);
}

function contradictsItself(person: RosterPerson | undefined): boolean {
	return Boolean(person?.startsOn && person.leavesOn && person.leavesOn < person.startsOn);
}
