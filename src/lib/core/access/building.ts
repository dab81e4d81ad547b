import type { Rollout } from '../document/schema';

/** A door by the places of its areas in the list of areas. */
export interface PlacedDoor {
	readonly id: string;
	readonly from: number;
	readonly to: number;
	/** Walked back from `to` to `from` with no credential. */
	readonly isExitFree: boolean;
}

/** The building as a graph: areas and doors by their places in the document's lists. */
export interface Building {
	readonly areaIds: readonly string[];
	readonly areaPlaceById: ReadonlyMap<string, number>;
	readonly outside: readonly number[];
	readonly doors: readonly PlacedDoor[];
	readonly doorPlaceById: ReadonlyMap<string, number>;
	/** Places of the doors that touch an area, by the area's place. */
	readonly doorsByArea: readonly (readonly number[])[];
}

/** Makes the graph of a rollout's areas and doors. */
export function buildingOf(rollout: Rollout): Building {
	const areaIds = rollout.areas.map((area) => area.id);
	const areaPlaceById = new Map(areaIds.map((id, place) => [id, place]));
	const placeOf = (id: string) => areaPlaceById.get(id) as number;
	const doors = rollout.doors.map((door) => ({
		id: door.id,
		from: placeOf(door.from),
		to: placeOf(door.to),
		isExitFree: door.exit === 'free'
	}));
	const doorsByArea: number[][] = areaIds.map(() => []);
	doors.forEach((door, place) => {
		doorsByArea[door.from]?.push(place);
		if (door.to !== door.from) doorsByArea[door.to]?.push(place);
	});
	return {
		areaIds,
		areaPlaceById,
		outside: rollout.areas.flatMap((area, place) => (area.outside ? [place] : [])),
		doors,
		doorPlaceById: new Map(doors.map((door, place) => [door.id, place])),
		doorsByArea
	};
}

/** True when two buildings have the same areas and doors at the same places; names and what else doors have do not count. */
export function isSameBuilding(a: Building, b: Building): boolean {
	return (
		a.doors.length === b.doors.length &&
		a.areaIds.join('\n') === b.areaIds.join('\n') &&
		a.outside.join() === b.outside.join() &&
		a.doors.every((door, place) => {
			const other = b.doors[place] as PlacedDoor;
			return (
				door.id === other.id && door.from === other.from && door.to === other.to && door.isExitFree === other.isExitFree
			);
		})
	);
}

/** The areas (1 by their places) that can be reached while exactly the doors marked 1 may be opened. */
export function areasReached(building: Building, open: Uint8Array): Uint8Array {
	const reach = new Uint8Array(building.areaIds.length);
	const queue = [...building.outside];
	for (const area of queue) reach[area] = 1;
	for (let area = queue.pop(); area !== undefined; area = queue.pop()) {
		for (const place of building.doorsByArea[area] ?? []) {
			const door = building.doors[place] as PlacedDoor;
			const isWalkable = open[place] === 1 || (door.from !== area && door.isExitFree);
			const beyond = door.from === area ? door.to : door.from;
			if (!isWalkable || reach[beyond] === 1) continue;
			reach[beyond] = 1;
			queue.push(beyond);
		}
	}
	return reach;
}

/** How an area is reached: over which door, from which area; an outside area over none. */
export interface Step {
	readonly area: number;
	readonly door: number | null;
	readonly before: number | null;
}

/**
 * The areas that can be reached while exactly the doors with `mayOpen` may be opened, each with the last step of a
 * route of fewest doors (breadth first from the outside areas, doors in the order of the document).
 */
export function stepsFromOutside(building: Building, mayOpen: (door: number) => boolean): ReadonlyMap<number, Step> {
	const steps = new Map<number, Step>();
	const queue: number[] = [];
	for (const area of building.outside) {
		steps.set(area, { area, door: null, before: null });
		queue.push(area);
	}
	for (let next = 0; next < queue.length; next++) {
		const area = queue[next] as number;
		for (const place of building.doorsByArea[area] ?? []) {
			const door = building.doors[place];
			if (!door) continue;
			const isWalkable = door.from === area ? mayOpen(place) : door.isExitFree || mayOpen(place);
			const beyond = door.from === area ? door.to : door.from;
			if (!isWalkable || steps.has(beyond)) continue;
			steps.set(beyond, { area: beyond, door: place, before: area });
			queue.push(beyond);
		}
	}
	return steps;
}

/** The doors walked from outside to an area that the steps reach, in order. */
export function doorsWalkedTo(steps: ReadonlyMap<number, Step>, area: number): number[] {
	const doors: number[] = [];
	let step = steps.get(area);
	while (step && step.door !== null && step.before !== null) {
		doors.unshift(step.door);
		step = steps.get(step.before);
	}
	return doors;
}
