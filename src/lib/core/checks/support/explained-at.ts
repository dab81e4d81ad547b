import { CoverageFinder } from '../../access/coverage';
import { findMissingDoors } from '../../access/missing-doors';
import { type AccessClass, AccessModel } from '../../access/model';
import { isEmployedOn, shiftsOfPattern } from '../../access/shifts';
import { epochDayOf } from '../../calendar/local-date';
import { type LocalDateTime, localDateTimeOf } from '../../calendar/local-date-time';
import { type SpanSet, clip, contains } from '../../calendar/spans';
import type { Instant, Zone } from '../../calendar/zone';
import type { Person, Rollout } from '../../document/schema';
import type { Finding } from '../../kernel/finding';

/** A person, a door and a local moment: what an explanation is asked about. */
export interface ExplainedAt {
	readonly person: string;
	/** Null where no door could help, since no chain of doors leads where the person must be. */
	readonly door: string | null;
	readonly at: LocalDateTime;
}

/** The codes of the findings of which one person, one door and one moment tell why. */
export const explainedCodes: ReadonlySet<string> = new Set([
	'holiday-lockout',
	'shift-not-covered',
	'no-route',
	'person-without-access'
]);

/**
 * The case of a finding in which its reason shows first: of uncovered shifts the first uncovered minute, and the first door on
 * the nearest way to the work area that does not open then; of `no-route` the first moment at which the door opens; of
 * `person-without-access` the start of the first shift, and the first door on the way to the work. Null for other findings
 * and for a subject that is not of the rollout, or no longer found.
 */
export function findExplainedAt(
	rollout: Rollout,
	code: string,
	subject: Readonly<Partial<Finding['subject']>>
): ExplainedAt | null {
	const person = rollout.people.find(({ id }) => id === subject['person']);
	if (!person || !explainedCodes.has(code)) return null;
	const model = new AccessModel(rollout, undefined, [person]);
	const one = model.findClass(person.id);
	if (!one) return null;
	switch (code) {
		case 'no-route':
			return noRoute(model, one, person, String(subject['door']));
		case 'person-without-access':
			return withoutAccess(model, person);
		default:
			return uncovered(model, one, person, code === 'holiday-lockout');
	}
}

function uncovered(model: AccessModel, one: AccessClass, person: Person, isOnHoliday: boolean): ExplainedAt | null {
	const finder = new CoverageFinder(model);
	const first = finder.uncoveredOf(person).find((found) => found.isOnHoliday === isOnHoliday);
	if (!first) return null;
	const gaps = finder.gapsOf(person, first.shift);
	const moment = firstTellable(model.zone, gaps.spans);
	if (moment === null) return null;
	const area = gaps.areas.find((place) => !contains(model.reachOf(one)[place] ?? [], moment));
	const mayOpen = (door: number) => contains(model.doorSpansOf(one, door), moment);
	return told(model, person, area === undefined ? null : firstMissing(model, mayOpen, area), moment);
}

function noRoute(model: AccessModel, one: AccessClass, person: Person, doorId: string): ExplainedAt | null {
	const door = model.building.doorPlaceById.get(doorId);
	if (door === undefined) return null;
	const moment = firstTellable(model.zone, clip(model.doorSpansOf(one, door), model.range.from, model.range.to));
	return moment === null ? null : told(model, person, door, moment);
}

function withoutAccess(model: AccessModel, person: Person): ExplainedAt {
	const { horizon, site } = model.rollout;
	const starts = person.startsOn !== null && person.startsOn > horizon.from ? person.startsOn : horizon.from;
	const day = epochDayOf(starts);
	const pattern = model.patterns.get(person.shiftPattern ?? '');
	const shift = (pattern ? shiftsOfPattern(pattern, day, model.until, model.holidays, model.zone) : []).find((worked) =>
		isEmployedOn(person, worked.day)
	);
	const arrives = shift ? shift.from - site.arriveEarlyMinutes * 60 : model.zone.instantOf({ day, minute: 480 });
	// Early arrival before the first date is before the dates that the finding is about.
	const moment = Math.max(arrives, model.zone.midnightOf(day)) as Instant;
	const area = model.building.areaPlaceById.get(person.workAreas[0] ?? '');
	const none = () => false;
	const outer = model.building.doors.findIndex(({ from }) => model.building.outside.includes(from));
	const door = (area === undefined ? null : firstMissing(model, none, area)) ?? (outer < 0 ? null : outer);
	return told(model, person, door, moment);
}

function firstMissing(model: AccessModel, mayOpen: (door: number) => boolean, area: number): number | null {
	return findMissingDoors(model.building, mayOpen, area)?.[0] ?? null;
}

function told(model: AccessModel, person: Person, door: number | null, moment: Instant): ExplainedAt {
	return {
		person: person.id,
		door: door === null ? null : (model.building.doors[door]?.id ?? null),
		at: localDateTimeOf(model.zone.wallTimeAt(moment))
	};
}

/**
 * The first minute of a set that a local time can name: the second of two times that a clock shows twice cannot be named.
 * Where none can, the first minute.
 */
export function firstTellable(zone: Zone, spans: SpanSet): Instant | null {
	for (const { from, to } of spans) {
		const start = Math.ceil(from / 60) * 60;
		// No clock is turned back by more than a day, nearly none by more than an hour.
		for (let at = start; at < Math.min(to, start + 86_400); at += 60) {
			if (zone.instantOf(zone.wallTimeAt(at as Instant)) === at) return at as Instant;
		}
	}
	return (spans[0]?.from as Instant | undefined) ?? null;
}
