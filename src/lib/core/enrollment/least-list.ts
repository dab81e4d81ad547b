/** Somebody who could be part of a proof: what they need, and the group of people who could use the same time. */
export interface Candidate {
	readonly id: string;
	readonly group: number;
	readonly need: number;
}

/** The time that any of some groups could use; fewer groups never have more. */
export interface Supply {
	readonly available: number;
	/** What would be available without one more of the groups; undefined where that is too much to reckon. */
	without(group: number): number | undefined;
	remove(group: number): void;
}

/** People who together need more than is available to them; without any one of them it would not be more. */
export interface LeastList {
	readonly people: readonly string[];
	readonly groups: ReadonlySet<number>;
	readonly needed: number;
	readonly available: number;
}

/** At most so many lists of one cut; further people stay without a proof rather than fill pages. */
const mostLists = 2000;

/**
 * Proofs for all unbooked people among the candidates, each with a list from which nobody can be taken. A list takes people still
 * to be explained first, then others until the needs exceed what is available. Empty where even all candidates together need no
 * more than there is. Once time is over no further list is made, and one that is not yet thinned is not told.
 */
export function leastLists(
	candidates: readonly Candidate[],
	unbooked: ReadonlySet<string>,
	explained: ReadonlyMap<string, string>,
	supplyOf: (groups: ReadonlySet<number>) => Supply,
	isOver: () => boolean
): LeastList[] {
	if (isOver()) return [];
	const all = supplyOf(new Set(candidates.map(({ group }) => group))).available;
	const total = candidates.reduce((sum, { need }) => sum + need, 0);
	if (total <= all) return [];
	const lists: LeastList[] = [];
	const done = new Set(explained.keys());
	const isOpen = (one: Candidate): boolean => unbooked.has(one.id) && !done.has(one.id);
	const rankOf = (one: Candidate): number => (isOpen(one) ? 0 : unbooked.has(one.id) ? 2 : 1);
	while (lists.length < mostLists && !isOver() && candidates.some(isOpen)) {
		const order = [...candidates].sort((a, b) => rankOf(a) - rankOf(b) || b.need - a.need);
		const chosen: Candidate[] = [];
		let needed = 0;
		for (const one of order) {
			if (needed > all) break;
			chosen.push(one);
			needed += one.need;
		}
		const list = thinned(chosen, supplyOf, isOver);
		if (!list) break;
		lists.push(list);
		const before = done.size;
		for (const id of list.people) if (unbooked.has(id)) done.add(id);
		if (done.size === before) break;
	}
	return lists;
}

/** Takes people from the list, from its end, as long as the rest still proves; undefined where time is over before. */
function thinned(
	chosen: readonly Candidate[],
	supplyOf: (groups: ReadonlySet<number>) => Supply,
	isOver: () => boolean
): LeastList | undefined {
	const counts = new Map<number, number>();
	for (const { group } of chosen) counts.set(group, (counts.get(group) ?? 0) + 1);
	const supply = supplyOf(new Set(counts.keys()));
	let needed = chosen.reduce((sum, { need }) => sum + need, 0);
	let kept = chosen;
	for (let before = Infinity; kept.length < before;) {
		before = kept.length;
		const gone = new Set<Candidate>();
		for (const one of [...kept].reverse()) {
			const isLast = counts.get(one.group) === 1;
			if (isLast && isOver()) return undefined;
			const rest = needed - one.need;
			if (rest <= supply.available && (!isLast || rest <= (supply.without(one.group) ?? Infinity))) continue;
			if (isLast) {
				counts.delete(one.group);
				supply.remove(one.group);
			} else counts.set(one.group, (counts.get(one.group) as number) - 1);
			needed = rest;
			gone.add(one);
		}
		kept = kept.filter((one) => !gone.has(one));
	}
	return { people: kept.map(({ id }) => id), groups: new Set(counts.keys()), needed, available: supply.available };
}

/** Reckonings of everything that one list may cost. */
const mostReckonings = 400;

/** A supply that is reckoned anew for each question. */
export class PlainSupply implements Supply {
	available: number;
	readonly #groups: Set<number>;
	readonly #reckon: (groups: ReadonlySet<number>) => number;
	#left = mostReckonings;

	constructor(groups: ReadonlySet<number>, reckon: (groups: ReadonlySet<number>) => number) {
		this.#groups = new Set(groups);
		this.#reckon = reckon;
		this.available = reckon(groups);
	}

	without(group: number): number | undefined {
		if (this.#left-- <= 0) return undefined;
		return this.#reckon(new Set([...this.#groups].filter((other) => other !== group)));
	}

	remove(group: number): void {
		this.#groups.delete(group);
		this.available = this.#reckon(this.#groups);
	}
}
