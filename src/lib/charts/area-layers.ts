/**
 * Which rooms stand beside which, for drawing areas and doors as a plan.
 *
 * The idea: rooms stand in columns by how many doors they are from outside, as a building is walked into. Inside a column they
 * are ordered so that doors between neighboring columns do not cross; a door that crosses none of those kept can be put
 * on a common wall, as can one between two rooms that follow each other in a column.
 * Invariant: the doors of a shortest way in, one for each room, are always kept, so a building without circles is drawn with
 * every door on a wall. What cannot be kept is handed back, to be called out in both rooms.
 * Cost: a few passes over the pairs of rooms and doors. Columns by depth and the swapping of neighbors are those of layered
 * graph drawing (Sugiyama, Tagawa and Toda, 1981); the rest is our own.
 */

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

/** Areas that hang together, in columns. */
export interface Layers {
	/** From outside in; in each column from top to bottom. */
	readonly columns: readonly (readonly string[])[];
	/** Pairs that get a common wall. */
	readonly kept: readonly Pair[];
	/** No chain of doors leads here from outside. */
	readonly isCutOff: boolean;
}

/** The key of a pair, whichever way round. */
export function pairKey(a: string, b: string): string {
	return JSON.stringify(a < b ? [a, b] : [b, a]);
}

/** Puts areas into columns, one set of columns for what hangs together with the outside, then one for each rest. */
export function layersOf(areas: readonly PlanArea[], doors: readonly PlanDoor[]): Layers[] {
	const pairs = pairsOf(doors);
	const neighbors = new Map<string, string[]>(areas.map((area) => [area.id, []]));
	for (const { a, b } of pairs) {
		neighbors.get(a)?.push(b);
		neighbors.get(b)?.push(a);
	}
	const left = new Set(areas.map((area) => area.id));
	const outside = areas.filter((area) => area.isOutside).map((area) => area.id);
	const layers: Layers[] = [];
	if (outside.length > 0) layers.push(layersFrom(outside, neighbors, pairs, left, false));
	for (const area of areas) {
		if (left.has(area.id)) layers.push(layersFrom([area.id], neighbors, pairs, left, true));
	}
	return layers;
}

function pairsOf(doors: readonly PlanDoor[]): Pair[] {
	const pairs = new Map<string, Pair>();
	for (const { from, to } of doors) {
		if (from !== to && !pairs.has(pairKey(from, to))) pairs.set(pairKey(from, to), { a: from, b: to });
	}
	return [...pairs.values()];
}

function layersFrom(
	roots: readonly string[],
	neighbors: ReadonlyMap<string, readonly string[]>,
	allPairs: readonly Pair[],
	left: Set<string>,
	isCutOff: boolean
): Layers {
	const { depths, parents } = walked(roots, neighbors);
	for (const id of depths.keys()) left.delete(id);
	const columns = firstOrder(roots, depths, parents);
	const pairs = allPairs.filter((pair) => depths.has(pair.a));
	improve(columns, pairs, depths);
	return { columns, kept: keptPairs(columns, pairs, depths, parents), isCutOff };
}

/** Breadth first: how many doors each area is away, and from which area it is first entered. */
function walked(roots: readonly string[], neighbors: ReadonlyMap<string, readonly string[]>) {
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

/** Columns in the order of a walk that goes deep first: without circles, no two doors cross. */
function firstOrder(
	roots: readonly string[],
	depths: ReadonlyMap<string, number>,
	parents: ReadonlyMap<string, string>
) {
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

/** Swaps neighbors in a column as long as fewer doors are in each other's way; few passes, none for huge buildings. */
function improve(columns: string[][], pairs: readonly Pair[], depths: ReadonlyMap<string, number>): void {
	const passes = Math.min(12, Math.floor(4e7 / (pairs.length ** 2 * depths.size + 1)));
	let best = trouble(columns, pairs, depths);
	for (let pass = 0; pass < passes && best > 0; pass++) {
		const before = best;
		for (const column of columns) {
			for (let place = 0; place + 1 < column.length; place++) {
				swap(column, place);
				const now = trouble(columns, pairs, depths);
				if (now < best) best = now;
				else swap(column, place);
			}
		}
		if (best === before) return;
	}
}

function swap(column: string[], place: number): void {
	[column[place], column[place + 1]] = [column[place + 1] as string, column[place] as string];
}

/** How many pairs are in each other's way: crossings between columns, and pairs in a column with others between them. */
function trouble(columns: readonly (readonly string[])[], pairs: readonly Pair[], depths: ReadonlyMap<string, number>) {
	const placed = placedPairs(columns, pairs, depths);
	let count = 0;
	placed.forEach((one, place) => {
		if (one.isInColumn) count += one.gap > 1 ? 2 : 0;
		else
			for (let other = place + 1; other < placed.length; other++)
				count += crosses(one, placed[other] as Placed) ? 1 : 0;
	});
	return count;
}

/** A pair by its columns and places. */
interface Placed {
	readonly pair: Pair;
	/** The column nearer to the outside. */
	readonly column: number;
	readonly isInColumn: boolean;
	/** Places in that column and in the next. */
	readonly near: number;
	readonly far: number;
	readonly gap: number;
}

function placedPairs(
	columns: readonly (readonly string[])[],
	pairs: readonly Pair[],
	depths: ReadonlyMap<string, number>
): Placed[] {
	const places = new Map(columns.flatMap((column) => column.map((id, place) => [id, place] as const)));
	return pairs.map((pair) => {
		const [depthA, depthB] = [depths.get(pair.a) ?? 0, depths.get(pair.b) ?? 0];
		const [nearId, farId] = depthA <= depthB ? [pair.a, pair.b] : [pair.b, pair.a];
		const [near, far] = [places.get(nearId) ?? 0, places.get(farId) ?? 0];
		return {
			pair,
			column: Math.min(depthA, depthB),
			isInColumn: depthA === depthB,
			near,
			far,
			gap: Math.abs(near - far)
		};
	});
}

function crosses(one: Placed, other: Placed): boolean {
	if (one.column !== other.column || other.isInColumn || one.isInColumn) return false;
	return (one.near - other.near) * (one.far - other.far) < 0;
}

/** The ways in first, then the rest as far as they cross none of those kept. */
function keptPairs(
	columns: readonly (readonly string[])[],
	pairs: readonly Pair[],
	depths: ReadonlyMap<string, number>,
	parents: ReadonlyMap<string, string>
): Pair[] {
	const isWayIn = ({ a, b }: Pair) => parents.get(a) === b || parents.get(b) === a;
	const placed = placedPairs(columns, pairs, depths);
	const kept: Placed[] = [];
	for (const one of [...placed.filter((p) => isWayIn(p.pair)), ...placed.filter((p) => !isWayIn(p.pair))]) {
		if (one.isInColumn ? one.gap === 1 : !kept.some((other) => crosses(one, other))) kept.push(one);
	}
	return kept.map((one) => one.pair);
}
