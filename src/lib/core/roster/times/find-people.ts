import type { Person } from '../../document/schema';
import { groupBy } from '../../kernel/group-by';
import { nearestName } from '../../kernel/nearest';
import { cellText } from '../values/cell-text';
import { foldedName } from '../values/person-names';

/** Who is meant: one person, or how many could be, with the nearest where nobody is. */
export type Meant =
	| { readonly person: Person }
	| { readonly person: undefined; readonly count: number; readonly nearest: string | undefined };

/** Finds people of a site by number, address or name. A number decides; a name only where one person has it. */
export class PeopleFinder {
	readonly #byId: ReadonlyMap<string, Person>;
	readonly #byEmail: ReadonlyMap<string, readonly Person[]>;
	readonly #byName: ReadonlyMap<string, readonly Person[]>;

	constructor(people: readonly Person[]) {
		this.#byId = new Map(people.map((person) => [person.id, person]));
		this.#byEmail = groupBy(
			people.filter(({ email }) => email !== null),
			({ email }) => (email ?? '').toLowerCase()
		);
		this.#byName = groupBy(
			people.filter(({ name }) => name !== null),
			({ name }) => foldedName(cellText(name ?? ''))
		);
	}

	byId(id: string): Meant {
		return this.#one(this.#byId.get(id), id);
	}

	byEmail(email: string): Meant {
		return several(this.#byEmail.get(email.toLowerCase()) ?? []);
	}

	byName(name: string): Meant {
		const found = this.#byName.get(foldedName(cellText(name))) ?? [];
		return found.length === 0 ? this.#one(undefined, name) : several(found);
	}

	/** Who is named in free words, as in the title of an event: a number that stands there as a word, else a whole name. */
	inWords(text: string): Meant {
		const words = new Set(text.split(/[^\p{L}\p{N}._-]+/u).filter((word) => word !== ''));
		const numbered = [...words].flatMap((word) => this.#byId.get(word) ?? []);
		if (numbered.length > 0) return several(numbered);
		const folded = ` ${foldedName(cellText(text)).replace(/[^\p{L}\p{N}.'-]+/gu, ' ')} `;
		const named = [...this.#byName].flatMap(([name, people]) =>
			folded.includes(` ${name.replace(/[^\p{L}\p{N}.'-]+/gu, ' ')} `) ? people : []
		);
		return several(named);
	}

	#one(person: Person | undefined, wanted: string): Meant {
		if (person) return { person };
		return { person: undefined, count: 0, nearest: nearestName(wanted, this.#byId.keys()) };
	}
}

function several(people: readonly Person[]): Meant {
	const [person] = people;
	if (person && people.length === 1) return { person };
	return { person: undefined, count: people.length, nearest: undefined };
}
