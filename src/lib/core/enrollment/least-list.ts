/** Somebody who could be part of a proof: what they need, and the group of people who could use the same time. */
export interface Candidate {
	readonly id: string;
	readonly group: number;
	readonly need: number;
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
/** Reckonings of what is available that one list may cost. */
const mostReckonings = 400;

/**
 * Proofs for all unbooked people among the candidates, each with a list from which nobody can be taken. A list takes people still
 * to be explained first, then others until the needs exceed what is available. `availableTo` tells the time that any of some
 * groups could use; fewer groups never have more. Empty where even all candidates together need no more than there is.
 */
export function leastList(
	candidates: readonly Candidate[],
	unbooked: ReadonlySet<string>,
	explained: ReadonlyMap<string, string>,
	availableTo: (groups: ReadonlySet<number>) => number
): LeastList[] {
	const all = availableTo(new Set(candidates.map(({ group }) => group)));
	const total = candidates.reduce((sum, { need }) => sum + need, 0);
	if (total <= all) return [];
	const lists: LeastList[] = [];
	const done = new Set(explained.keys());
	const open = (one: Candidate): boolean => unbooked.has(one.id) && !done.has(one.id);
	while (lists.length < mostLists && candidates.some(open)) {
		const order = [...candidates].sort((a, b) => rankOf(a) - rankOf(b) || b.need - a.need);
		const chosen: Candidate[] = [];
		let needed = 0;
		for (const one of order) {
			if (needed > all) break;
			chosen.push(one);
			needed += one.need;
		}
		const list = thinned(chosen, availableTo);
		lists.push(list);
		const before = done.size;
		for (const id of list.people) if (unbooked.has(id)) done.add(id);
		if (done.size === before) break;
	}
	return lists;

	function rankOf(one: Candidate): number {
		return open(one) ? 0 : unbooked.has(one.id) ? 2 : 1;
	}
}

/** Takes people from the list, from its end, as long as the rest still proves. */
function thinned(chosen: readonly Candidate[], availableTo: (groups: ReadonlySet<number>) => number): LeastList {
	let kept = [...chosen];
	let needed = kept.reduce((sum, { need }) => sum + need, 0);
	const counts = new Map<number, number>();
	for (const { group } of kept) counts.set(group, (counts.get(group) ?? 0) + 1);
	let available = availableTo(new Set(counts.keys()));
	let reckonings = 0;
	for (let isShrinking = true; isShrinking;) {
		isShrinking = false;
		for (let at = kept.length - 1; at >= 0; at--) {
			const one = kept[at] as Candidate;
			const isLast = counts.get(one.group) === 1;
			let without = available;
			if (isLast && needed - one.need <= available) {
				if (reckonings++ >= mostReckonings) continue;
				without = availableTo(new Set([...counts.keys()].filter((group) => group !== one.group)));
			}
			if (needed - one.need <= without) continue;
			if (isLast) {
				counts.delete(one.group);
				available = without === available ? availableTo(new Set(counts.keys())) : without;
			} else counts.set(one.group, (counts.get(one.group) as number) - 1);
			needed -= one.need;
			kept.splice(at, 1);
			isShrinking = true;
		}
	}
	kept = [...kept];
	return { people: kept.map(({ id }) => id), groups: new Set(counts.keys()), needed, available };
}
