/** Areas and doors as a graph, walked from outside in: what the plan begins with. */

export interface PlanArea {
	readonly id: string;
	readonly name: string;
	readonly isOutside: boolean;
}

export interface PlanDoor {
	readonly id: string;
	readonly name: string;
	readonly from: string;
	readonly to: string;
	/** Walked back with no credential. */
	readonly isExitFree: boolean;
}

/** Two areas with at least one door between them. */
export interface Pair {
	readonly a: string;
	readonly b: string;
}

/** The key of a pair, whichever way round. */
export function pairKey(a: string, b: string): string {
	return JSON.stringify(a < b ? [a, b] : [b, a]);
}

/** Every two areas that a door joins, once, in the order of the doors; a door back into its own area joins none. */
export function pairsOf(doors: readonly PlanDoor[]): Pair[] {
	const pairs = new Map<string, Pair>();
	for (const { from, to } of doors) {
		if (from !== to && !pairs.has(pairKey(from, to))) pairs.set(pairKey(from, to), { a: from, b: to });
	}
	return [...pairs.values()];
}

/** The neighbors of every area. */
export function neighborsOf(
	areas: readonly PlanArea[],
	pairs: readonly Pair[]
): ReadonlyMap<string, readonly string[]> {
	const neighbors = new Map<string, string[]>(areas.map((area) => [area.id, []]));
	for (const { a, b } of pairs) {
		neighbors.get(a)?.push(b);
		neighbors.get(b)?.push(a);
	}
	return neighbors;
}

/** Where a walk from some areas gets: how many doors away each area is, and from which area it is first entered. */
export interface Walk {
	readonly depths: ReadonlyMap<string, number>;
	readonly parents: ReadonlyMap<string, string>;
}

/** Walks breadth first. */
export function walkFrom(roots: readonly string[], neighbors: ReadonlyMap<string, readonly string[]>): Walk {
	const depths = new Map(roots.map((id) => [id, 0]));
	const parents = new Map<string, string>();
	for (const queue = [...roots]; queue.length > 0;) {
		const id = queue.shift() as string;
		for (const next of neighbors.get(id) ?? []) {
			if (depths.has(next)) continue;
			depths.set(next, (depths.get(id) ?? 0) + 1);
			parents.set(next, id);
			queue.push(next);
		}
	}
	return { depths, parents };
}

/** Columns by depth, in the order of a walk that goes deep first: in a building without circles no two doors cross. */
export function columnsByDepth(roots: readonly string[], { depths, parents }: Walk): string[][] {
	const children = new Map<string, string[]>();
	for (const [child, parent] of parents) children.set(parent, [...(children.get(parent) ?? []), child]);
	const columns: string[][] = [];
	const stack = [...roots].reverse();
	for (let id = stack.pop(); id !== undefined; id = stack.pop()) {
		(columns[depths.get(id) ?? 0] ??= []).push(id);
		stack.push(...(children.get(id) ?? []).slice().reverse());
	}
	return columns;
}
