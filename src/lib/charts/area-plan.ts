import { type Layers, type PlanArea, type PlanDoor, layersOf, pairKey } from './area-layers';
import type { Rect } from './scale';
import { settle } from './settle';

/** A room of the plan. */
export interface Room {
	readonly id: string;
	/** The name in lines that fit. */
	readonly lines: readonly string[];
	readonly rect: Rect;
	readonly isOutside: boolean;
	/** No chain of doors leads here from outside. */
	readonly isCutOff: boolean;
	/** Doors that could not be put on a wall, told inside the room. */
	readonly callouts: readonly Callout[];
}

export interface Callout {
	readonly door: string;
	readonly number: number;
	/** Name of the area at the other side. */
	readonly other: string;
}

/** A door on the wall between its two rooms. */
export interface DoorOnWall {
	readonly id: string;
	/** Its number on the plan: its place in the list, from 1. */
	readonly number: number;
	/** Middle of the opening. */
	readonly x: number;
	readonly y: number;
	/** The way from its `from` into its `to`. */
	readonly facing: 'right' | 'left' | 'down' | 'up';
	readonly isExitFree: boolean;
}

export interface AreaPlan {
	readonly width: number;
	readonly height: number;
	readonly rooms: readonly Room[];
	readonly doors: readonly DoorOnWall[];
}

/** Wall that one door takes: the opening, its number, and room on both sides. */
export const doorSlot = 72;
const roomHeight = 88;
const calloutHeight = 20;
const gapBetweenParts = 40;
const outsideWidth = 120;

/**
 * Lays areas out as rooms and puts every door on the wall between its two, or calls it out in both where that cannot be
 * had in a plane. The same input gives the same plan. Doors to areas that are not given are left out, so that a part of a
 * building can be drawn; the others keep their numbers.
 */
export function areaPlan(areas: readonly PlanArea[], allDoors: readonly PlanDoor[]): AreaPlan {
	const areaById = new Map(areas.map((area) => [area.id, area]));
	const numbers = new Map(allDoors.map((door, place) => [door.id, place + 1]));
	const doors = allDoors.filter((door) => areaById.has(door.from) && areaById.has(door.to));
	const layers = layersOf(areas, doors);
	const kept = new Set(layers.flatMap((part) => part.kept.map(({ a, b }) => pairKey(a, b))));
	const isOnWall = (door: PlanDoor) => door.from !== door.to && kept.has(pairKey(door.from, door.to));

	const doorsByPair = new Map<string, PlanDoor[]>();
	for (const door of doors.filter(isOnWall)) {
		const key = pairKey(door.from, door.to);
		doorsByPair.set(key, [...(doorsByPair.get(key) ?? []), door]);
	}
	const callouts = calloutsByArea(
		doors.filter((door) => !isOnWall(door)),
		areaById,
		numbers
	);

	const rooms: Room[] = [];
	let top = 0;
	for (const part of layers) {
		const rects = placeRooms(part, areaById, doorsByPair, callouts, top);
		for (const [id, rect] of rects) {
			const area = areaById.get(id) as PlanArea;
			rooms.push({
				id,
				lines: wrapped(area.name),
				rect,
				isOutside: area.isOutside,
				isCutOff: part.isCutOff,
				callouts: callouts.get(id) ?? []
			});
		}
		top = Math.max(...[...rects.values()].map((rect) => rect.y + rect.height)) + gapBetweenParts;
	}
	const rectById = new Map(rooms.map((room) => [room.id, room.rect]));
	return {
		width: Math.max(0, ...rooms.map(({ rect }) => rect.x + rect.width)),
		height: Math.max(0, ...rooms.map(({ rect }) => rect.y + rect.height)),
		rooms,
		doors: [...doorsByPair.values()].flatMap((group) => doorsOnWall(group, rectById, numbers))
	};
}

function calloutsByArea(
	doors: readonly PlanDoor[],
	areaById: ReadonlyMap<string, PlanArea>,
	numbers: ReadonlyMap<string, number>
): Map<string, Callout[]> {
	const callouts = new Map<string, Callout[]>();
	const tell = (area: string, door: PlanDoor, other: string) => {
		const callout = { door: door.id, number: numbers.get(door.id) ?? 0, other: areaById.get(other)?.name ?? other };
		callouts.set(area, [...(callouts.get(area) ?? []), callout]);
	};
	for (const door of doors) {
		tell(door.from, door, door.to);
		if (door.from !== door.to) tell(door.to, door, door.from);
	}
	return callouts;
}

/** The rectangles of one part: columns side by side, rooms from top to bottom without gaps. */
function placeRooms(
	part: Layers,
	areaById: ReadonlyMap<string, PlanArea>,
	doorsByPair: ReadonlyMap<string, readonly PlanDoor[]>,
	callouts: ReadonlyMap<string, readonly Callout[]>,
	top: number
): Map<string, Rect> {
	const isSameColumn = (a: string, b: string) =>
		part.columns.some((column) => column.includes(a) && column.includes(b));
	const walls = part.kept
		.filter(({ a, b }) => !isSameColumn(a, b))
		.map(({ a, b }) => ({ a, b, length: doorSlot * (doorsByPair.get(pairKey(a, b))?.length ?? 1) }));
	const leastHeight = (id: string) => roomHeight + calloutHeight * (callouts.get(id)?.length ?? 0);
	const intervals = settle(part.columns, leastHeight, walls);
	const rects = new Map<string, Rect>();
	let x = part.isCutOff ? outsideWidth : 0;
	for (const column of part.columns) {
		const width = Math.max(...column.map((id) => widthOf(id, areaById, doorsByPair, callouts)));
		for (const id of column) {
			const { from, to } = intervals.get(id) as { from: number; to: number };
			rects.set(id, { x, y: top + from, width, height: to - from });
		}
		x += width;
	}
	return rects;
}

/** Wide enough for the name between two swings, for its callouts, and for the doors in its upper and lower walls. */
function widthOf(
	id: string,
	areaById: ReadonlyMap<string, PlanArea>,
	doorsByPair: ReadonlyMap<string, readonly PlanDoor[]>,
	callouts: ReadonlyMap<string, readonly Callout[]>
): number {
	const area = areaById.get(id) as PlanArea;
	const longest = Math.max(0, ...wrapped(area.name).map((line) => line.length));
	const called = Math.max(0, ...(callouts.get(id) ?? []).map((callout) => callout.other.length));
	const doors = Math.max(
		0,
		...[...doorsByPair.values()]
			.filter((group) => group[0]?.from === id || group[0]?.to === id)
			.map((group) => group.length)
	);
	return Math.max(area.isOutside ? outsideWidth : 168, longest * 8 + 76, called * 7 + 60, doors * doorSlot + 40);
}

/** Doors of one pair, spread evenly over the wall that their rooms share. */
function doorsOnWall(
	group: readonly PlanDoor[],
	rectById: ReadonlyMap<string, Rect>,
	numbers: ReadonlyMap<string, number>
): DoorOnWall[] {
	return group.map((door, place) => {
		const [from, to] = [rectById.get(door.from) as Rect, rectById.get(door.to) as Rect];
		const share = (start: number, end: number) => start + ((end - start) * (place + 0.5)) / group.length;
		const common = { id: door.id, number: numbers.get(door.id) ?? 0, isExitFree: door.isExitFree };
		if (from.x !== to.x) {
			const isRight = to.x > from.x;
			const y = share(Math.max(from.y, to.y), Math.min(from.y + from.height, to.y + to.height));
			return { ...common, x: isRight ? to.x : from.x, y, facing: isRight ? 'right' : 'left' };
		}
		const isDown = to.y > from.y;
		return {
			...common,
			x: share(from.x, from.x + from.width),
			y: isDown ? to.y : from.y,
			facing: isDown ? 'down' : 'up'
		};
	});
}

/** A name in lines of about sixteen characters; words are not broken. */
export function wrapped(name: string, most = 16): string[] {
	const lines: string[] = [];
	for (const word of name.split(/\s+/)) {
		const last = lines.at(-1);
		if (last !== undefined && last.length + 1 + word.length <= most) lines[lines.length - 1] = `${last} ${word}`;
		else lines.push(word);
	}
	return lines;
}
