import { type PlanArea, type PlanDoor, pairKey } from './area-graph';
import type { Layers } from './area-layers';
import { type Callout, type OuterWall, type Room, doorSlot, wrapped } from './plan-shapes';
import type { Rect } from './scale';
import { settle } from './settle';

/** What is known of the building as a whole. */
export interface Building {
	readonly areaById: ReadonlyMap<string, PlanArea>;
	/** Doors that stand on walls, by their pair of rooms. */
	readonly doorsByPair: ReadonlyMap<string, readonly PlanDoor[]>;
	readonly callouts: ReadonlyMap<string, readonly Callout[]>;
}

/** Rooms that hang together, drawn. */
export interface PlanPart {
	readonly rooms: readonly Room[];
	readonly outerWalls: ReadonlyMap<string, OuterWall>;
	/** Where the next part may begin. */
	readonly bottom: number;
}

const roomHeight = 88;
const calloutHeight = 20;
const outsideWidth = 120;
/** Ground above, below and behind the building, where doors lead to it. */
const strip = 48;

/** Draws one part below `top`: columns side by side, rooms from top to bottom without gaps, the ground around. */
export function planPart(part: Layers, building: Building, top: number): PlanPart {
	const outerWalls = outerWallsOf(part);
	const sides = new Set([...outerWalls.values()].map((wall) => wall.side));
	const roof = sides.has('top') ? strip : 0;
	const rects = rectsOf(part, building, outerWalls, top + roof);
	const bounds = boundsOf([...rects.values()]);
	const room = (id: string, rect: Rect, ground: readonly Rect[] = []): Room => {
		const area = building.areaById.get(id) as PlanArea;
		const lines = wrapped(area.name);
		const callouts = building.callouts.get(id) ?? [];
		return { id, lines, rect, ground, isOutside: area.isOutside, isCutOff: part.isCutOff, callouts };
	};
	const rooms = [...rects].map(([id, rect]) => room(id, rect));
	const bottom = bounds.y + bounds.height + (sides.has('bottom') ? strip : 0);
	if (part.around !== undefined) {
		const height = bottom - top;
		const { x, y, width } = bounds;
		const ground: Rect[] = [];
		if (sides.has('top')) ground.push({ x, y: top, width, height: strip });
		if (sides.has('bottom')) ground.push({ x, y: y + bounds.height, width, height: strip });
		if (sides.has('right')) ground.push({ x: x + width, y: top, width: strip, height });
		rooms.unshift(room(part.around, { x: 0, y: top, width: outsideWidth, height }, ground));
	}
	return { rooms, outerWalls, bottom };
}

/** From the first column a room reaches the ground to the left, from the last to the right, else above or below. */
function outerWallsOf({ columns, around, kept }: Layers): Map<string, OuterWall> {
	const walls = new Map<string, OuterWall>();
	if (around === undefined) return walls;
	for (const { a, b } of kept) {
		if (a !== around && b !== around) continue;
		const id = a === around ? b : a;
		const at = columns.findIndex((column) => column.includes(id));
		const isFirstInColumn = columns[at]?.[0] === id;
		const side = at === 0 ? 'left' : at === columns.length - 1 ? 'right' : isFirstInColumn ? 'top' : 'bottom';
		walls.set(id, { around, side });
	}
	return walls;
}

function rectsOf(
	part: Layers,
	building: Building,
	outerWalls: ReadonlyMap<string, OuterWall>,
	top: number
): Map<string, Rect> {
	const columnOf = new Map(part.columns.flatMap((column, at) => column.map((id) => [id, at] as const)));
	const doorsBetween = (a: string, b: string) => building.doorsByPair.get(pairKey(a, b))?.length ?? 0;
	const walls = part.kept
		.filter(({ a, b }) => columnOf.has(a) && columnOf.has(b) && columnOf.get(a) !== columnOf.get(b))
		.map(({ a, b }) => ({ a, b, length: doorSlot * doorsBetween(a, b) }));
	const outerDoors = (id: string, isUpright: boolean) => {
		const wall = outerWalls.get(id);
		if (!wall || (wall.side === 'left' || wall.side === 'right') !== isUpright) return 0;
		return doorsBetween(id, wall.around);
	};
	const leastHeight = (id: string) =>
		Math.max(roomHeight + calloutHeight * (building.callouts.get(id)?.length ?? 0), doorSlot * outerDoors(id, true));
	const intervals = settle(part.columns, leastHeight, walls);

	const rects = new Map<string, Rect>();
	let x = part.isCutOff || part.around !== undefined ? outsideWidth : 0;
	for (const column of part.columns) {
		const levelDoors = column.map((id, place) =>
			Math.max(outerDoors(id, false), doorsBetween(id, column[place + 1] ?? id))
		);
		const width = Math.max(...column.map((id) => widthOf(id, building)), Math.max(...levelDoors) * doorSlot + 40);
		for (const id of column) {
			const { from, to } = intervals.get(id) as { from: number; to: number };
			rects.set(id, { x, y: top + from, width, height: to - from });
		}
		x += width;
	}
	return rects;
}

/** Wide enough for the name between two swings, and for the callouts. */
function widthOf(id: string, { areaById, callouts }: Building): number {
	const area = areaById.get(id) as PlanArea;
	const longest = Math.max(0, ...wrapped(area.name).map((line) => line.length));
	const called = Math.max(0, ...(callouts.get(id) ?? []).map((callout) => callout.other.length));
	return Math.max(area.isOutside ? outsideWidth : 168, longest * 8 + 76, called === 0 ? 0 : called * 7 + 130);
}

function boundsOf(rects: readonly Rect[]): Rect {
	const [x, y] = [Math.min(...rects.map((rect) => rect.x)), Math.min(...rects.map((rect) => rect.y))];
	const right = Math.max(...rects.map((rect) => rect.x + rect.width));
	const bottom = Math.max(...rects.map((rect) => rect.y + rect.height));
	return { x, y, width: right - x, height: bottom - y };
}
