/**
 * Gives rooms that stand in columns their upper and lower edges.
 *
 * The idea: every wish is of the form "this edge at least so far below that one": a room has its least height, rooms of a
 * column follow each other, and a wall that two rooms of neighboring columns share is long enough for its doors. The edges
 * are found as longest ways from the top, and once more from the bottom; the middle of both holds every wish as well, and
 * looks even. Then rooms grow until no column has a gap.
 * Invariant: wishes make no circle as long as no two shared walls cross.
 * Cost: wishes times columns, a few rounds. Our own, on the textbook's difference constraints.
 */

/** A wall that two rooms of neighboring columns must share, and how long it must be. */
export interface SharedWall {
	readonly a: string;
	readonly b: string;
	readonly length: number;
}

export interface Interval {
	readonly from: number;
	readonly to: number;
}

interface Wish {
	readonly above: number;
	readonly below: number;
	readonly least: number;
}

/** The edges of every room, whole numbers; each column fills the height without gaps. Throws when walls cross. */
export function settle(
	columns: readonly (readonly string[])[],
	leastHeight: (id: string) => number,
	walls: readonly SharedWall[]
): Map<string, Interval> {
	const ids = columns.flat();
	const topOf = new Map(ids.map((id, place) => [id, 2 * place]));
	const top = (id: string) => topOf.get(id) as number;
	const bottom = (id: string) => top(id) + 1;

	const wishes: Wish[] = ids.map((id) => ({ above: top(id), below: bottom(id), least: leastHeight(id) }));
	for (const column of columns) {
		column
			.slice(1)
			.forEach((id, place) => wishes.push({ above: bottom(column[place] as string), below: top(id), least: 0 }));
	}
	// The common wall reaches from the lower of both tops to the upper of both bottoms.
	for (const { a, b, length } of walls) {
		wishes.push({ above: top(a), below: bottom(b), least: length }, { above: top(b), below: bottom(a), least: length });
	}

	const highest = longestWays(2 * ids.length, wishes);
	const height = Math.max(0, ...highest);
	const turned = wishes.map(({ above, below, least }) => ({ above: below, below: above, least }));
	const lowest = longestWays(2 * ids.length, turned).map((way) => height - way);
	const middle = highest.map((edge, place) => (edge + (lowest[place] ?? edge)) / 2);

	const intervals = new Map<string, Interval>();
	for (const column of columns) {
		const cuts = column.slice(1).map((id, place) => {
			const [before, after] = [middle[bottom(column[place] as string)] ?? 0, middle[top(id)] ?? 0];
			return Math.round((before + after) / 2);
		});
		column.forEach((id, place) => intervals.set(id, { from: cuts[place - 1] ?? 0, to: cuts[place] ?? height }));
	}
	return intervals;
}

/** For each edge the longest sum of wishes that leads to it. */
function longestWays(count: number, wishes: readonly Wish[]): number[] {
	const ways = new Array<number>(count).fill(0);
	for (let round = 0; round <= count; round++) {
		let hasChanged = false;
		for (const { above, below, least } of wishes) {
			const reached = (ways[above] ?? 0) + least;
			if (reached > (ways[below] ?? 0)) {
				ways[below] = reached;
				hasChanged = true;
			}
		}
		if (!hasChanged) return ways;
	}
	throw new Error('walls that cross cannot all be shared');
}
