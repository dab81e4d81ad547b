import { dateOf } from '../calendar/local-date';
import { type LocalDateTime, wallTimeOf } from '../calendar/local-date-time';
import { contains } from '../calendar/spans';
import type { Instant } from '../calendar/zone';
import type { Person, Rollout } from '../document/schema';
import { remembered } from '../kernel/remembered';
import { areasReached } from './building';
import { AccessModel } from './model';

/** Somebody who may open a door at a moment. */
export interface Opener {
	readonly person: Person;
	/** Ids of the doors asked about that they may open, in the order asked. */
	readonly doors: readonly string[];
	/** Whether they can get to one of these doors then. */
	readonly canReach: boolean;
}

export interface Openers {
	/** The moment asked for, as it is read where the clock skips or repeats it; RFC 3339 text. */
	readonly at: string;
	/** In the order of the document. */
	readonly openers: readonly Opener[];
}

/**
 * Who may open at least one of some doors at a local moment. People with the same assignments are reasoned about once; what a
 * set of assignments opens is found once for all doors, since it decides about the way to the door as well.
 */
export function findOpeners(rollout: Rollout, doorIds: readonly string[], at: LocalDateTime): Openers {
	const wall = wallTimeOf(at);
	const date = dateOf(wall.day);
	const model = new AccessModel(rollout, { from: date, until: date });
	const moment = model.zone.instantOf(wall);
	const { building } = model;
	const asked = doorIds.flatMap((id) => building.doorPlaceById.get(id) ?? []);
	const openByAssignment = new Map<number, readonly number[]>();
	const byAssignments = new Map<string, Omit<Opener, 'person'>>();
	const found = new Map<Person, Omit<Opener, 'person'>>();
	for (const one of model.classes) {
		if (!contains(one.employed, moment)) continue;
		const opened = remembered(byAssignments, one.assignments.join(), () => {
			const open = new Uint8Array(building.doors.length);
			for (const place of one.assignments) {
				for (const door of remembered(openByAssignment, place, () => doorsOpen(model, place, moment))) open[door] = 1;
			}
			const doors = asked.filter((door) => open[door] === 1);
			const reach = doors.length === 0 ? null : areasReached(building, open);
			return {
				doors: doors.map((door) => building.doors[door]?.id as string),
				canReach: doors.some((door) => reach?.[building.doors[door]?.from as number] === 1)
			};
		});
		if (opened.doors.length > 0) for (const person of one.people) found.set(person, opened);
	}
	return {
		at: model.zone.textOf(moment),
		openers: rollout.people.flatMap((person) => {
			const opened = found.get(person);
			return opened ? [{ person, ...opened }] : [];
		})
	};
}

/** Places of the doors that an assignment opens at a moment. */
function doorsOpen(model: AccessModel, assignment: number, moment: Instant): number[] {
	return [...model.doorsGrantedBy(assignment)].filter((door) =>
		model.grantsOf(assignment, door).some((grant) => contains(model.spansOfGrant(grant), moment))
	);
}

/** The doors that lead into an area, by id: those walked towards it, and none that only lets out of it. */
export function doorsInto(rollout: Rollout, areaId: string): string[] {
	return rollout.doors.flatMap(({ id, to }) => (to === areaId ? [id] : []));
}
