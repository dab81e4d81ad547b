import type { Building } from './building';

/**
 * The doors that do not open and would have to, so that an area can be reached from outside: as few as possible, in the order
 * in which they are walked. Empty where the area is reached already; null where no chain of doors leads there at all.
 *
 * Of a way's doors only those cost that do not open (0-1 breadth first search: areas reached at no further cost are looked at
 * first). Cost: doors of the building. Among ways with equally few, doors earlier in the document win.
 */
export function findMissingDoors(
	building: Building,
	mayOpen: (door: number) => boolean,
	area: number
): readonly number[] | null {
	const costs = new Map<number, number>(building.outside.map((place) => [place, 0]));
	const steps = new Map<number, { readonly before: number; readonly missing: number | null }>();
	const settled = new Set<number>();
	let level = [...building.outside];
	for (let cost = 0; level.length > 0; cost++) {
		const next: number[] = [];
		for (let at = level.shift(); at !== undefined; at = level.shift()) {
			if (settled.has(at) || costs.get(at) !== cost) continue;
			settled.add(at);
			for (const place of building.doorsByArea[at] ?? []) {
				const door = building.doors[place];
				if (!door) continue;
				const isFree = mayOpen(place) || (door.from !== at && door.isExitFree);
				const beyond = door.from === at ? door.to : door.from;
				const reached = cost + (isFree ? 0 : 1);
				if (settled.has(beyond) || (costs.get(beyond) ?? Infinity) <= reached) continue;
				costs.set(beyond, reached);
				steps.set(beyond, { before: at, missing: isFree ? null : place });
				(isFree ? level : next).push(beyond);
			}
		}
		level = next;
	}
	if (!costs.has(area)) return null;
	const missing: number[] = [];
	for (let step = steps.get(area); step; step = steps.get(step.before)) {
		if (step.missing !== null) missing.unshift(step.missing);
	}
	return missing;
}
