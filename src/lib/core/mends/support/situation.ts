import type { CoverageFinder } from '../../access/coverage';
import type { AccessClass, AccessModel } from '../../access/model';
import type { WorkedShift } from '../../access/shifts';
import { type SpanSet, spanSetOf } from '../../calendar/spans';
import type { Person, Rollout } from '../../document/schema';
import type { NeededAccess } from '../define-mend';
import { type DoorNeeds, needsOf } from './needs';

/** Somebody who must reach areas at times at which they cannot, and the doors that they lack for it. */
export interface Situation {
	readonly rollout: Rollout;
	readonly model: AccessModel;
	readonly person: Person;
	readonly one: AccessClass;
	readonly areas: readonly number[];
	/** When the areas must be reached and cannot be. */
	readonly wanted: SpanSet;
	/** The shifts of which that is a part; empty where it is about no shift. */
	readonly shifts: readonly WorkedShift[];
	readonly needs: DoorNeeds;
}

/** The situation of somebody with uncovered shifts; null where there is none that `isMeant`. */
export function situationOfShifts(
	model: AccessModel,
	coverage: CoverageFinder,
	person: Person,
	isMeant: (isOnHoliday: boolean) => boolean
): Situation | null {
	const one = model.findClass(person.id);
	const uncovered = coverage.uncoveredOf(person).filter(({ isOnHoliday }) => isMeant(isOnHoliday));
	if (!one || uncovered.length === 0) return null;
	const shifts = uncovered.map(({ shift }) => shift);
	const wanted = spanSetOf(shifts.flatMap((shift) => coverage.gapsOf(person, shift).spans));
	const areas = [...new Set(person.workAreas.map((id) => model.building.areaPlaceById.get(id) as number))];
	return situationOf(model, person, one, areas, wanted, shifts);
}

/**
 * A situation with its needs worked out, on walks over doors that the person is given already where that can be, and over
 * doors to be avoided only where there is no other way.
 */
export function situationOf(
	model: AccessModel,
	person: Person,
	one: AccessClass,
	areas: readonly number[],
	wanted: SpanSet,
	shifts: readonly WorkedShift[] = [],
	avoided: ReadonlySet<number> = new Set()
): Situation {
	const given = new Set(one.assignments.flatMap((place) => [...model.doorsGrantedBy(place)]));
	const { doors, outside } = model.building;
	// A door that is not given yet costs as much as three that are, since it opens a place and not a time; one from outside
	// costs most, since it opens the site.
	const costOf = (door: number) => (given.has(door) ? 10 : outside.includes(doors[door]?.from ?? -1) ? 41 : 31);
	const needs = needsOf(model, one, areas, wanted, (door) => costOf(door) + (avoided.has(door) ? 200 : 0));
	return { rollout: model.rollout, model, person, one, areas, wanted, shifts, needs };
}

/** What a situation needs, as the measure of what a change opens beyond it. */
export function neededOf({ model, person, needs }: Situation): NeededAccess[] {
	return [...needs.byDoor].map(([door, spans]) => ({
		person: person.id,
		door: model.building.doors[door]?.id as string,
		spans
	}));
}
