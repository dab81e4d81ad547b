import { type PlanArea, type PlanDoor, pairKey } from './area-graph';
import { layersOf } from './area-layers';
import { doorsOnWall } from './door-walls';
import { planPart } from './plan-part';
import type { Callout, DoorOnWall, OuterWall, Room } from './plan-shapes';

export interface AreaPlan {
	readonly width: number;
	readonly height: number;
	readonly rooms: readonly Room[];
	readonly doors: readonly DoorOnWall[];
}

const gapBetweenParts = 40;

/**
 * Lays areas out as rooms and puts every door on the wall between its two, or calls it out in both where that cannot be
 * had. The same input gives the same plan. Doors to areas that are not given are left out, so that a part of a building
 * can be drawn; the others keep their numbers.
 */
export function areaPlan(areas: readonly PlanArea[], allDoors: readonly PlanDoor[]): AreaPlan {
	const areaById = new Map(areas.map((area) => [area.id, area]));
	const numbers = new Map(allDoors.map((door, place) => [door.id, place + 1]));
	const doors = allDoors.filter((door) => areaById.has(door.from) && areaById.has(door.to));
	const layers = layersOf(areas, doors);
	const kept = new Set(layers.flatMap((part) => part.kept.map(({ a, b }) => pairKey(a, b))));
	const isOnWall = (door: PlanDoor) => door.from !== door.to && kept.has(pairKey(door.from, door.to));
	const building = {
		areaById,
		doorsByPair: groupedByPair(doors.filter(isOnWall)),
		callouts: calloutsByArea(
			doors.filter((door) => !isOnWall(door)),
			areaById,
			numbers
		)
	};

	const rooms: Room[] = [];
	const outerWalls = new Map<string, OuterWall>();
	let top = 0;
	for (const layer of layers) {
		const part = planPart(layer, building, top);
		rooms.push(...part.rooms);
		for (const [id, wall] of part.outerWalls) outerWalls.set(id, wall);
		top = part.bottom + gapBetweenParts;
	}
	const rectById = new Map(rooms.map((room) => [room.id, room.rect]));
	const rects = rooms.flatMap((room) => [room.rect, ...room.ground]);
	return {
		width: Math.max(0, ...rects.map((rect) => rect.x + rect.width)),
		height: Math.max(0, ...rects.map((rect) => rect.y + rect.height)),
		rooms,
		doors: [...building.doorsByPair.values()].flatMap((group) => doorsOnWall(group, rectById, outerWalls, numbers))
	};
}

function groupedByPair(doors: readonly PlanDoor[]): Map<string, PlanDoor[]> {
	const groups = new Map<string, PlanDoor[]>();
	for (const door of doors) {
		const key = pairKey(door.from, door.to);
		groups.set(key, [...(groups.get(key) ?? []), door]);
	}
	return groups;
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
