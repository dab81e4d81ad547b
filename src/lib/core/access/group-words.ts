import { remembered } from '../kernel/remembered';
import { counted, listed } from '../document/names';
import type { Person, Rollout } from '../document/schema';

/** People and doors of two rollouts in people's words: by what they have in common where that is exactly they, else by name. */
export class GroupWords {
	readonly #people: ReadonlyMap<string, Person>;
	readonly #doors: ReadonlyMap<string, string>;
	readonly #peopleByTrait = new Map<string, Set<string>>();
	readonly #wordsByTrait = new Map<string, string>();
	readonly #groups: readonly { readonly name: string; readonly doors: ReadonlySet<string> }[];

	/** What both have is called as in the later one. */
	constructor(before: Rollout, after: Rollout) {
		const rollouts = [before, after];
		this.#people = new Map(rollouts.flatMap(({ people }) => people.map((person) => [person.id, person] as const)));
		this.#doors = new Map(rollouts.flatMap(({ doors }) => doors.map(({ id, name }) => [id, name ?? id] as const)));
		const groups = new Map(rollouts.flatMap(({ doorGroups }) => doorGroups.map((group) => [group.id, group] as const)));
		this.#groups = [...groups.values()].map(({ id, name, doors }) => ({ name: name ?? id, doors: new Set(doors) }));
		const shifts = rollouts.flatMap(({ shiftPatterns }) =>
			shiftPatterns.map(({ id, name }) => [id, name ?? id] as const)
		);
		const waves = rollouts.flatMap(({ enrollment }) =>
			enrollment.waves.map(({ id, name }) => [id, name ?? id] as const)
		);
		const [shiftNames, waveNames] = [new Map(shifts), new Map(waves)];
		for (const person of this.#people.values()) {
			for (const [trait, words] of traitsOf(person, shiftNames, waveNames)) {
				remembered(this.#peopleByTrait, trait, () => new Set()).add(person.id);
				this.#wordsByTrait.set(trait, words);
			}
		}
	}

	/** Who they are: `everybody`, `all 312 people of Packing`, `5 of the 31 people of Packing: …`, names. */
	who(ids: readonly string[]): string {
		const count = ids.length;
		if (count === this.#people.size && count > 1) return `everybody (${counted(count, 'person', 'people')})`;
		if (count === 1) return this.#nameOf(ids[0] as string);
		const shared = this.#sharedTraits(ids);
		const whole = shared.find((trait) => this.#sizeOf(trait) === count);
		if (whole !== undefined) return `all ${count} people ${this.#words(whole)}`;
		const nearly = shared.find((trait) => this.#sizeOf(trait) - count <= mostLeftOut && count > 3 * mostLeftOut);
		if (nearly !== undefined)
			return `all people ${this.#words(nearly)} but ${this.#rest(this.#peopleByTrait.get(nearly), ids)}`;
		const departments = this.#wholeDepartments(ids);
		if (departments) return `all ${count} people of ${listed(departments, mostTogether)}`;
		if (this.#people.size - count <= mostLeftOut && count > 3 * mostLeftOut)
			return `everybody but ${this.#rest(this.#people, ids)}`;
		const names = listed(
			ids.slice(0, 3).map((id) => this.#nameOf(id)),
			3
		);
		const examples =
			count <= 3
				? names
				: `${ids
						.slice(0, 3)
						.map((id) => this.#nameOf(id))
						.join(', ')} and ${count - 3} more`;
		const common = shared.at(0);
		if (common === undefined) return count <= 3 ? names : `${count} people: ${examples}`;
		return `${count} of the ${this.#sizeOf(common)} people ${this.#words(common)}: ${examples}`;
	}

	/** Which doors: `all 12 doors`, `the 4 doors of Cold rooms`, names. */
	doors(ids: readonly string[]): string {
		const count = ids.length;
		if (count === 1) return this.doorName(ids[0] as string);
		if (count === this.#doors.size) return `all ${count} doors`;
		const whole = this.#groups.find(({ doors }) => doors.size === count && ids.every((id) => doors.has(id)));
		if (whole) return `the ${count} doors of ${whole.name}`;
		const names = ids.map((id) => this.doorName(id));
		const [around] = this.#groups
			.filter(({ doors }) => ids.every((id) => doors.has(id)))
			.sort((a, b) => a.doors.size - b.doors.size);
		if (around) return `${count} of the ${around.doors.size} doors of ${around.name}: ${listed(names)}`;
		return count <= 3 ? listed(names) : `${count} doors: ${listed(names)}`;
	}

	doorName(id: string): string {
		return this.#doors.get(id) ?? id;
	}

	#nameOf(id: string): string {
		return this.#people.get(id)?.name ?? id;
	}

	#words(trait: string): string {
		return this.#wordsByTrait.get(trait) ?? '';
	}

	#sizeOf(trait: string): number {
		return this.#peopleByTrait.get(trait)?.size ?? 0;
	}

	/** What all of them have in common, the narrowest first. */
	#sharedTraits(ids: readonly string[]): string[] {
		const [first, ...others] = ids;
		const traits = traitsOf(this.#people.get(first ?? ''), new Map(), new Map()).map(([trait]) => trait);
		return traits
			.filter((trait) => others.every((id) => this.#peopleByTrait.get(trait)?.has(id)))
			.sort((a, b) => this.#sizeOf(a) - this.#sizeOf(b));
	}

	/** Departments that are whole in it and make it up; undefined where others are in it, or there are too many. */
	#wholeDepartments(ids: readonly string[]): string[] | undefined {
		const departments = new Set<string>();
		for (const id of ids) {
			const department = this.#people.get(id)?.department ?? null;
			if (department === null) return undefined;
			departments.add(department);
			if (departments.size > mostTogether) return undefined;
		}
		const inAll = [...departments].reduce((sum, one) => sum + this.#sizeOf(JSON.stringify(['department', one])), 0);
		return inAll === ids.length ? [...departments] : undefined;
	}

	#rest(all: ReadonlySet<string> | ReadonlyMap<string, unknown> | undefined, ids: readonly string[]): string {
		const there = new Set(ids);
		return listed([...(all?.keys() ?? [])].filter((id) => !there.has(id)).map((id) => this.#nameOf(id)));
	}
}

const mostLeftOut = 3;
const mostTogether = 4;

/** What a person has that others can have too, each as a key and in words. */
function traitsOf(
	person: Person | undefined,
	shiftNames: ReadonlyMap<string, string>,
	waveNames: ReadonlyMap<string, string>
): [trait: string, words: string][] {
	if (!person) return [];
	const { department, job, shiftPattern, wave } = person;
	const of = department === null ? null : `of ${department}`;
	const as = job === null ? null : `with the job ${job}`;
	const on = shiftPattern === null ? null : `on shift ${shiftNames.get(shiftPattern) ?? shiftPattern}`;
	const inWave = wave === null ? null : `in ${waveNames.get(wave) ?? wave}`;
	const all: [key: readonly (string | null)[], words: readonly (string | null)[]][] = [
		[['department', department], [of]],
		[['job', job], [as]],
		[['wave', wave], [inWave]],
		[['shift', shiftPattern], [on]],
		[
			['department and job', department, job],
			[of, as]
		],
		[
			['department and shift', department, shiftPattern],
			[of, on]
		],
		[
			['department and wave', department, wave],
			[of, inWave]
		],
		[
			['job and shift', job, shiftPattern],
			[as, on]
		],
		[
			['department, job and shift', department, job, shiftPattern],
			[of, as, on]
		]
	];
	return all.flatMap(([key, words]) =>
		key.includes(null) ? [] : [[JSON.stringify(key), words.join(' ')] as [string, string]]
	);
}
