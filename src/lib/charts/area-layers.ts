/**
 * Which rooms stand beside which, for drawing areas and doors as a plan.
 *
 * The idea: rooms stand in columns by how many doors they are from outside, as a building is walked into. Two rooms can share
 * a wall when they follow each other in a column, or stand in neighboring columns so that their door crosses none of
 * those kept. A single area outside lies all around: a room reaches it from the first column, from the last, and from both
 * ends of any other. Rooms are moved as long as fewer doors are in each other's way.
 * Invariant: a building without circles begins with nothing in the way, so nothing is moved and every door gets a wall.
 * What cannot be kept is left out of `kept`, to be called out in both rooms.
 * Cost: rooms times places times pairs of doors for a pass, and few passes. Columns by depth and the swapping of neighbors
 * are those of layered graph drawing (Sugiyama, Tagawa and Toda, 1981); the rest is our own.
 */

import {
	type Pair,
	type PlanArea,
	type PlanDoor,
	type Walk,
	columnsByDepth,
	neighborsOf,
	pairsOf,
	walkFrom
} from './area-graph';

/** Areas that hang together, in columns. */
export interface Layers {
	/** From outside in; in each column from top to bottom. */
	readonly columns: readonly (readonly string[])[];
	/** The area outside that lies around the columns and stands in none; none where there are several. */
	readonly around: string | undefined;
	/** Pairs that get a common wall. */
	readonly kept: readonly Pair[];
	/** No chain of doors leads here from outside. */
	readonly isCutOff: boolean;
}

/** Puts areas into columns, one set of columns for what hangs together with the outside, then one for each rest. */
export function layersOf(areas: readonly PlanArea[], doors: readonly PlanDoor[]): Layers[] {
	const pairs = pairsOf(doors);
	const neighbors = neighborsOf(areas, pairs);
	const outside = areas.filter((area) => area.isOutside).map((area) => area.id);
	const left = new Set(areas.map((area) => area.id));
	const take = (roots: readonly string[]) => {
		const walk = walkFrom(roots, neighbors);
		for (const id of walk.depths.keys()) left.delete(id);
		const own = pairs.filter((pair) => walk.depths.has(pair.a));
		return { walk, own, columns: columnsByDepth(roots, walk) };
	};
	const layers: Layers[] = [];
	if (outside.length > 0) {
		const { walk, own, columns } = take(outside);
		const around = outside.length === 1 && columns.length > 1 ? outside[0] : undefined;
		if (around !== undefined) columns.shift();
		layers.push(arranged(columns, own, walk, around, around === undefined ? 1 : 0, false));
	}
	for (const area of areas) {
		if (!left.has(area.id)) continue;
		const { walk, own, columns } = take([area.id]);
		layers.push(arranged(columns, own, walk, undefined, 0, true));
	}
	return layers;
}

function arranged(
	columns: string[][],
	pairs: readonly Pair[],
	walk: Walk,
	around: string | undefined,
	firstMovable: number,
	isCutOff: boolean
): Layers {
	const best = improved(columns, pairs, around, firstMovable);
	return { columns: best, around, kept: keptPairs(best, pairs, walk, around), isCutOff };
}

/** Moves rooms to where fewer doors are in each other's way, the first best move of each pass; none for huge buildings. */
function improved(
	start: string[][],
	pairs: readonly Pair[],
	around: string | undefined,
	firstMovable: number
): string[][] {
	let columns = start;
	let best = trouble(columns, pairs, around);
	const rooms = start.flat().length;
	for (let budget = 2e7; best > 0 && budget > 0;) {
		let next: string[][] | undefined;
		for (const candidate of moves(columns, firstMovable)) {
			budget -= (pairs.length * pairs.length) / 2 + rooms;
			if (budget < 0) break;
			const now = trouble(candidate, pairs, around);
			if (now < best) [best, next] = [now, candidate];
		}
		if (!next) break;
		columns = next;
	}
	return columns;
}

/** Every way to put one room somewhere else; columns that run empty are left out. */
function* moves(columns: readonly (readonly string[])[], firstMovable: number): Generator<string[][]> {
	for (let from = firstMovable; from < columns.length; from++) {
		for (const id of columns[from] ?? []) {
			const without = columns.map((column) => column.filter((one) => one !== id));
			for (let to = firstMovable; to <= columns.length; to++) {
				for (let place = 0; place <= (without[to]?.length ?? 0); place++) {
					const moved = without.map((column, at) => (at === to ? column.toSpliced(place, 0, id) : column));
					if (to === columns.length) moved.push([id]);
					yield moved.filter((column, at) => column.length > 0 || at < firstMovable);
				}
			}
		}
	}
}

/** A pair by the columns and places of its rooms. */
interface Placed {
	readonly pair: Pair;
	/** The column further left, and the places there and in the next. */
	readonly column: number;
	readonly near: number;
	readonly far: number;
	/** Can it share a wall at all: beside each other, or with no column between; `free` ones are in nobody's way. */
	readonly wall: 'free' | 'between columns' | 'none';
}

function placedPairs(
	columns: readonly (readonly string[])[],
	pairs: readonly Pair[],
	around: string | undefined
): Placed[] {
	const spots = new Map(
		columns.flatMap((column, at) => column.map((id, place) => [id, { at, place, last: column.length - 1 }] as const))
	);
	return pairs.map((pair) => {
		const [a, b] = [spots.get(pair.a), spots.get(pair.b)];
		if (!a || !b) {
			const spot = a ?? b;
			const isAtEdge =
				(pair.a === around || pair.b === around) &&
				spot !== undefined &&
				(spot.at === 0 || spot.at === columns.length - 1 || spot.place === 0 || spot.place === spot.last);
			return { pair, column: 0, near: 0, far: 0, wall: isAtEdge ? 'free' : 'none' };
		}
		const [near, far] = a.at <= b.at ? [a, b] : [b, a];
		const gap = far.at - near.at;
		const isBeside = gap === 0 && Math.abs(a.place - b.place) === 1;
		const wall = isBeside ? 'free' : gap === 1 ? 'between columns' : 'none';
		return { pair, column: near.at, near: near.place, far: far.place, wall };
	});
}

function crosses(one: Placed, other: Placed): boolean {
	const isBoth = one.wall === 'between columns' && other.wall === 'between columns';
	return isBoth && one.column === other.column && (one.near - other.near) * (one.far - other.far) < 0;
}

/** How many pairs are in each other's way: crossings, and twice those that can share no wall. */
function trouble(columns: readonly (readonly string[])[], pairs: readonly Pair[], around: string | undefined): number {
	const placed = placedPairs(columns, pairs, around);
	let count = 0;
	placed.forEach((one, place) => {
		if (one.wall === 'none') count += 2;
		for (let other = place + 1; other < placed.length; other++) count += crosses(one, placed[other] as Placed) ? 1 : 0;
	});
	return count;
}

/** The ways in first, then the rest as far as they cross none of those kept. */
function keptPairs(
	columns: readonly (readonly string[])[],
	pairs: readonly Pair[],
	{ parents }: Walk,
	around: string | undefined
): Pair[] {
	const isWayIn = ({ a, b }: Pair) => parents.get(a) === b || parents.get(b) === a;
	const placed = placedPairs(columns, pairs, around);
	const kept: Placed[] = [];
	for (const one of [...placed.filter((p) => isWayIn(p.pair)), ...placed.filter((p) => !isWayIn(p.pair))]) {
		if (one.wall !== 'none' && !kept.some((other) => crosses(one, other))) kept.push(one);
	}
	return kept.map((one) => one.pair);
}
