import type { Building } from '../../access/building';
import type { AccessClass, AccessModel } from '../../access/model';
import { type Span, type SpanSet, spanSetOf } from '../../calendar/spans';
import { remembered } from '../../kernel/remembered';

/**
 * Which doors somebody lacks, and when, to reach areas at given times.
 *
 * The idea: while the same doors are open, the doors that are missing follow from a cheapest walk from outside, in which open
 * doors cost nothing. So each state of the person's courses is looked at once, and its doors are needed for as long as it
 * lasts. Areas are taken one after the other; a door that one needs costs the next nothing. Our own.
 */

export interface DoorNeeds {
	/** When each door is missing, by the door's place. */
	readonly byDoor: ReadonlyMap<number, SpanSet>;
	/** Places of areas to which no chain of doors leads. */
	readonly unreachable: readonly number[];
	/** What of the times lies on dates on which the person is not employed: no door helps there. */
	readonly notEmployed: SpanSet;
}

/** The doors that a class lacks to reach all of the areas throughout `wanted`, on the walks that cost least. */
export function needsOf(
	model: AccessModel,
	one: AccessClass,
	areas: readonly number[],
	wanted: SpanSet,
	costOf: (door: number) => number
): DoorNeeds {
	const spansByDoor = new Map<number, Span[]>();
	const unreachable = new Set<number>();
	const notEmployed: Span[] = [];
	const missingByState = new Map<Uint8Array, readonly number[]>();
	for (const { from, to } of wanted) {
		for (let place = model.cells.cellAt(from); place <= model.cells.cellAt(to - 1); place++) {
			const cell = model.cells.cells[place];
			if (!cell) continue;
			if (cell.day < one.firstDay || cell.day > one.lastDay) {
				notEmployed.push({ from: Math.max(from, cell.from), to: Math.min(to, cell.to) });
				continue;
			}
			const course = model.courseOf(one, place);
			course.states.forEach((state, at) => {
				const start = Math.max(from, cell.from + (course.bounds[at] as number));
				const end = Math.min(to, cell.from + (course.bounds[at + 1] as number));
				if (start >= end) return;
				const missing = remembered(missingByState, state.open, () =>
					missingDoors(model.building, state.open, areas, costOf, unreachable)
				);
				for (const door of missing) remembered(spansByDoor, door, () => []).push({ from: start, to: end });
			});
		}
	}
	return {
		byDoor: new Map([...spansByDoor].map(([door, spans]) => [door, spanSetOf(spans)])),
		unreachable: [...unreachable],
		notEmployed: spanSetOf(notEmployed)
	};
}

function missingDoors(
	building: Building,
	open: Uint8Array,
	areas: readonly number[],
	costOf: (door: number) => number,
	unreachable: Set<number>
): readonly number[] {
	const opened = Uint8Array.from(open);
	const missing: number[] = [];
	for (const area of areas) {
		const doors = cheapestWalk(building, opened, area, costOf);
		if (!doors) unreachable.add(area);
		for (const door of doors ?? []) {
			opened[door] = 1;
			missing.push(door);
		}
	}
	return missing;
}

/** The closed doors of a cheapest walk from outside to an area; undefined where there is none. */
function cheapestWalk(
	building: Building,
	open: Uint8Array,
	goal: number,
	costOf: (door: number) => number
): readonly number[] | undefined {
	const cost = building.areaIds.map(() => Infinity);
	const cameBy = new Map<number, { before: number; door: number | null }>();
	const isDone = new Set<number>();
	for (const area of building.outside) cost[area] = 0;
	for (;;) {
		let area = -1;
		cost.forEach((value, place) => {
			if (!isDone.has(place) && value < (cost[area] ?? Infinity)) area = place;
		});
		if (area < 0) return undefined;
		if (area === goal) break;
		isDone.add(area);
		for (const place of building.doorsByArea[area] ?? []) {
			const door = building.doors[place];
			if (!door) continue;
			const isWalkedBack = door.from !== area;
			const isFree = open[place] === 1 || (isWalkedBack && door.isExitFree);
			const beyond = isWalkedBack ? door.from : door.to;
			const total = (cost[area] as number) + (isFree ? 0 : costOf(place));
			if (total >= (cost[beyond] as number)) continue;
			cost[beyond] = total;
			cameBy.set(beyond, { before: area, door: isFree ? null : place });
		}
	}
	const doors: number[] = [];
	for (let step = cameBy.get(goal); step; step = cameBy.get(step.before)) if (step.door !== null) doors.push(step.door);
	return doors;
}
