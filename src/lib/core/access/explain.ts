import { type EpochDay, type LocalDate, dateOf, epochDayOf, plusDays } from '../calendar/local-date';
import { type LocalDateTime, wallTimeOf } from '../calendar/local-date-time';
import { contains, firstEndingAfter } from '../calendar/spans';
import type { Instant } from '../calendar/zone';
import { nameOf } from '../document/names';
import type { AccessProfile, Assignment, Person, Rollout } from '../document/schema';
import { doorsWalkedTo, stepsFromOutside } from './building';
import { AccessModel } from './model';
import { type DayRule, dayRuleOf, openingsOn } from './schedule-days';
import { isEmployedOn } from './shifts';

/** Why a door opens: one stretch of one grant that holds at the moment asked for. */
export interface Because {
	readonly assignment: string;
	readonly accessProfile: string;
	readonly doorGroup: string;
	readonly schedule: string;
	/** As written in the document. */
	readonly stretch: string;
	/** The date on which the stretch began. */
	readonly date: LocalDate;
}

export type BlockReason =
	| 'not-employed'
	| 'not-matched'
	| 'assignment-not-in-force'
	| 'door-not-granted'
	| 'schedule-closed'
	| 'holiday-closed'
	| 'holiday-undecided'
	| 'schedule-not-valid'
	| 'no-route';

export interface Block {
	readonly assignment?: string;
	readonly reason: BlockReason;
	readonly detail: string;
}

/** Whether a person may open a door at a moment, why, by which route, and when next. Instants as RFC 3339 text. */
export interface Explanation {
	readonly allowed: boolean;
	readonly because: readonly Because[];
	readonly blockedBy: readonly Block[];
	readonly route: readonly string[] | null;
	readonly nextAllowed: string | null;
}

/**
 * Explains whether a person may open a door at a local moment. The person and the door must be of the rollout. A time that
 * a clock change skips or repeats is read as RFC 5545, section 3.3.5 says.
 */
export function explainAccess(rollout: Rollout, person: Person, doorId: string, at: LocalDateTime): Explanation {
	const wall = wallTimeOf(at);
	const date = dateOf(wall.day);
	const model = new AccessModel(
		rollout,
		{
			from: date < rollout.horizon.from ? date : rollout.horizon.from,
			until: date > rollout.horizon.until ? date : rollout.horizon.until
		},
		[person]
	);
	const moment = model.zone.instantOf(wall);
	const door = model.building.doorPlaceById.get(doorId);
	const one = model.findClass(person.id);
	if (door === undefined || !one) throw new Error(`no person ${person.id} or no door ${doorId}`);

	const because = becauseOf(model, one.assignments, person, doorId, moment);
	const allowed = because.length > 0;
	const mayOpen = (place: number) => contains(model.doorSpansOf(one, place), moment);
	const steps = stepsFromOutside(model.building, mayOpen);
	const from = model.building.doors[door]?.from as number;
	const route = allowed && steps.has(from) ? [...doorsWalkedTo(steps, from), door] : null;
	return {
		allowed,
		because,
		blockedBy: allowed
			? noRoute(rollout, doorId, route)
			: blocksOf(model, one.assignments, person, door, model.zone.dayAt(moment)),
		route: route?.map((place) => model.building.doors[place]?.id as string) ?? null,
		nextAllowed: allowed ? model.zone.textOf(moment) : nextAllowed(model, one.key, door, moment)
	};
}

function becauseOf(
	model: AccessModel,
	assignments: readonly number[],
	person: Person,
	doorId: string,
	moment: Instant
): Because[] {
	const today = model.zone.dayAt(moment);
	if (!isEmployedOn(person, today)) return [];
	return assignments.flatMap((place) => {
		const assignment = model.rollout.assignments[place] as Assignment;
		if (!isInForce(assignment, today)) return [];
		return entriesFor(model.rollout, assignment, doorId).flatMap(({ doorGroup, schedule }) =>
			openingsAround(model, schedule, today)
				.filter(({ from, to }) => from <= moment && moment < to)
				.map(({ stretch, day }) => ({
					assignment: assignment.id,
					accessProfile: assignment.accessProfile,
					doorGroup,
					schedule,
					stretch: stretch.text,
					date: dateOf(day)
				}))
		);
	});
}

function openingsAround(model: AccessModel, scheduleId: string, today: EpochDay) {
	const schedule = model.schedules.get(scheduleId);
	if (!schedule) return [];
	// The next date's too: where a clock is turned back past midnight, they have begun already.
	return [-2, -1, 0, 1].flatMap((days) => openingsOn(schedule, plusDays(today, days), model.holidays, model.zone));
}

function isInForce(assignment: Assignment, day: EpochDay): boolean {
	return isEmployedOn({ startsOn: assignment.from, leavesOn: assignment.until }, day);
}

function entriesFor(rollout: Rollout, assignment: Assignment, doorId: string): AccessProfile['entries'] {
	const profile = rollout.accessProfiles.find(({ id }) => id === assignment.accessProfile);
	const groups = new Set(rollout.doorGroups.filter(({ doors }) => doors.includes(doorId)).map(({ id }) => id));
	return profile ? profile.entries.filter(({ doorGroup }) => groups.has(doorGroup)) : [];
}

function noRoute(rollout: Rollout, doorId: string, route: readonly number[] | null): Block[] {
	if (route) return [];
	const door = rollout.doors.find(({ id }) => id === doorId);
	const area = nameOf(rollout.areas, door?.from);
	return [
		{ reason: 'no-route', detail: `The door opens, but ${area}, from which it leads, cannot be reached at this time.` }
	];
}

function blocksOf(
	model: AccessModel,
	assignments: readonly number[],
	person: Person,
	door: number,
	today: EpochDay
): Block[] {
	const { rollout } = model;
	const date = dateOf(today);
	if (!isEmployedOn(person, today)) {
		const limits = `${person.startsOn ?? 'no first day'} to ${person.leavesOn ?? 'no last day'}`;
		return [{ reason: 'not-employed', detail: `Employed ${limits}; ${date} lies outside.` }];
	}
	if (assignments.length === 0) {
		return [{ reason: 'not-matched', detail: 'No assignment names this person, their department, job or wave.' }];
	}
	const doorId = model.building.doors[door]?.id as string;
	return assignments.flatMap((place): Block[] => {
		const assignment = rollout.assignments[place] as Assignment;
		const { id } = assignment;
		const profile = nameOf(rollout.accessProfiles, assignment.accessProfile);
		if (!isInForce(assignment, today)) {
			const limits = `${assignment.from ?? 'no first day'} to ${assignment.until ?? 'no last day'}`;
			return [
				{ assignment: id, reason: 'assignment-not-in-force', detail: `In force ${limits}; ${date} lies outside.` }
			];
		}
		const entries = entriesFor(rollout, assignment, doorId);
		if (entries.length === 0) {
			const detail = `Profile ${profile} has no door group with ${nameOf(rollout.doors, doorId)}.`;
			return [{ assignment: id, reason: 'door-not-granted', detail }];
		}
		const schedules = [...new Set(entries.map(({ schedule }) => schedule))];
		return schedules.map((schedule) => ({ assignment: id, ...closedBlock(model, schedule, today) }));
	});
}

function closedBlock(model: AccessModel, scheduleId: string, today: EpochDay): { reason: BlockReason; detail: string } {
	const schedule = model.schedules.get(scheduleId);
	if (!schedule) throw new Error(`no schedule ${scheduleId}`);
	const name = `Schedule ${nameOf(model.rollout.schedules, scheduleId)}`;
	const date = dateOf(today);
	const rule: DayRule = dayRuleOf(schedule, today, model.holidays);
	const stretches = rule.stretches.map(({ text }) => text).join(', ') || 'no stretch';
	switch (rule.rule) {
		case 'not-valid':
			return { reason: 'schedule-not-valid', detail: `${name} is not valid on ${date}.` };
		case 'holiday-undecided':
			return { reason: 'holiday-undecided', detail: `${name} says nothing of ${rule.kind} holidays, such as ${date}.` };
		case 'holiday-closed':
			return { reason: 'holiday-closed', detail: `${name} is closed on ${rule.kind} holidays, such as ${date}.` };
		case 'holiday-list':
			return {
				reason: 'holiday-closed',
				detail: `${name} is open only ${stretches} on ${rule.kind} holidays, such as ${date}.`
			};
		case 'week':
			return { reason: 'schedule-closed', detail: `${name} is closed at this time; on ${date} it has ${stretches}.` };
	}
}

function nextAllowed(model: AccessModel, key: string, door: number, moment: Instant): string | null {
	const one = model.classes.find((candidate) => candidate.key === key);
	const spans = one ? model.doorSpansOf(one, door) : [];
	const next = spans[firstEndingAfter(spans, moment)];
	const end = model.zone.midnightOf(plusDays(epochDayOf(model.rollout.horizon.until), 1));
	if (!next) return null;
	const at = Math.max(next.from, moment) as Instant;
	return at < end ? model.zone.textOf(at) : null;
}
