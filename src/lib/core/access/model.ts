import { type EpochDay, type LocalDate, epochDayOf, plusDays } from '../calendar/local-date';
import { type Span, type SpanSet, clip, intersection, noSpans, spanSetOf } from '../calendar/spans';
import { type Instant, Zone } from '../calendar/zone';
import type { Holiday, Person, Rollout } from '../document/schema';
import { remembered } from '../kernel/remembered';
import { type Building, buildingOf, isSameBuilding } from './building';
import { type ClassReach, ClassReachFinder, type DoorsEver } from './class-reach';
import { type AccessClass, classesOf, sameClasses, spansOfLimits } from './classes';
import { Contents } from './contents';
import { holidaysByDay } from './holidays';
import { CellPatterns } from './cell-patterns';
import { type DoorSet, gatheredByParts } from './door-sets';
import { type ReadySchedule, openSpansOf, readySchedule } from './schedule-days';
import { type ReadyPattern, readyPattern } from './shifts';
import { type Course, Timeline } from './timeline';

/**
 * Who may open what and when over a range of dates, computed once and shared.
 *
 * The idea: people who are matched by the same assignments and employed on the same dates of the range have the same access.
 * They form one class; everything is computed per class, and inside it per set of doors that are granted in the same way.
 * Invariant: every span set lies in `wide`, the range with room on both sides for early arrival and for shifts that run on.
 * Our own.
 */

/** A stretch of the time line between two instants. */
interface Range extends Span {
	readonly from: Instant;
	readonly to: Instant;
}

/** One way in which an assignment lets its people open a door. */
export interface Grant {
	readonly assignment: number;
	/** Place of the entry in the profile. */
	readonly entry: number;
	readonly schedule: string;
}

/** Who is to arrive earlier still is looked at from so many days before the range: the document allows any number. */
const mostDaysEarly = 3660;

export class AccessModel {
	readonly rollout: Rollout;
	readonly zone: Zone;
	readonly from: EpochDay;
	readonly until: EpochDay;
	/** Time zone and dates as text: models with the same have the same cells. */
	readonly frame: string;
	/** The instants of the range of dates. */
	readonly range: Range;
	/** The range with room on both sides. */
	readonly wide: Range;
	readonly holidays: ReadonlyMap<EpochDay, Holiday>;
	readonly building: Building;
	readonly schedules: ReadonlyMap<string, ReadySchedule>;
	readonly patterns: ReadonlyMap<string, ReadyPattern>;
	readonly classes: readonly AccessClass[];
	/** `wide` cut into local dates. */
	readonly cells: CellPatterns;
	readonly #people: readonly Person[];
	#classByPerson: Map<string, AccessClass> | undefined;
	readonly #grantsByAssignment: readonly ReadonlyMap<number, readonly Grant[]>[];
	readonly #openBySchedule = new Map<string, SpanSet>();
	readonly #spansByGrant = new Map<string, SpanSet>();
	readonly #doorSetsByAssignments = new Map<string, readonly DoorSet[]>();
	readonly #doorSetsByClass = new Map<string, readonly DoorSet[]>();
	readonly #reachByClass = new Map<string, readonly SpanSet[]>();
	readonly #doorsByContent = new Map<string, DoorsEver>();
	readonly #carried: Carried | undefined;
	#contents: Contents | undefined;
	#reachFinder: ClassReachFinder | undefined;
	readonly #patternsByGrant = new Map<SpanSet, Int32Array>();
	readonly #partsByAssignment = new Map<number, ReadonlyMap<SpanSet, readonly number[]>>();
	readonly #coursesByClass = new Map<AccessClass, readonly Course[]>();
	readonly #timelineByAssignments = new Map<string, Timeline>();
	readonly #timelineOfNobody: Timeline;

	/**
	 * A model over the dates `from` to `until` (the horizon where left out), for everybody or for the people given. `before`:
	 * the model of an earlier state, from which is taken over what is still true; it makes no difference to any answer.
	 */
	constructor(
		rollout: Rollout,
		range?: { from: LocalDate; until: LocalDate },
		people: readonly Person[] = rollout.people,
		before?: AccessModel
	) {
		this.rollout = rollout;
		const { from, until } = range ?? rollout.horizon;
		this.from = epochDayOf(from);
		this.until = epochDayOf(until);
		const room = 3 + Math.ceil(Math.min(rollout.site.arriveEarlyMinutes / 1440, mostDaysEarly));
		const { timeZone } = rollout.site;
		this.frame = `${timeZone} ${this.from} ${this.until} ${room}`;
		const alike = before?.frame === this.frame && before.#contents?.isFull === false ? before : undefined;
		this.zone = alike?.zone ?? new Zone(timeZone, plusDays(this.from, -room - 3), plusDays(this.until, room + 3));
		this.range = { from: this.zone.midnightOf(this.from), to: this.zone.midnightOf(plusDays(this.until, 1)) };
		this.wide = {
			from: this.zone.midnightOf(plusDays(this.from, -room)),
			to: this.zone.midnightOf(plusDays(this.until, room))
		};
		this.holidays = holidaysByDay(rollout);
		const building = buildingOf(rollout);
		this.building = alike && isSameBuilding(alike.building, building) ? alike.building : building;
		this.schedules = new Map(rollout.schedules.map((schedule) => [schedule.id, readySchedule(schedule)]));
		this.patterns = new Map(rollout.shiftPatterns.map((pattern) => [pattern.id, readyPattern(pattern)]));
		this.#grantsByAssignment = grantsByAssignment(rollout, this.building);
		this.#people = people;
		this.classes = this.#classesAfter(alike);
		this.cells = alike?.cells ?? new CellPatterns(this.zone.datesIn(this.wide));
		if (alike?.building === this.building) {
			this.#carried = {
				contents: alike.#contents as Contents,
				areHolidaysSame: areSameHolidays(alike.holidays, this.holidays),
				doorsByContent: alike.#doorsByContent
			};
		}
		this.#timelineOfNobody = new Timeline(this.building, this.cells, []);
	}

	/** The class of a person; undefined for an id that no person of the model has. */
	findClass(personId: string): AccessClass | undefined {
		if (!this.#classByPerson) {
			this.#classByPerson = new Map();
			for (const one of this.classes) for (const { id } of one.people) this.#classByPerson.set(id, one);
		}
		return this.#classByPerson.get(personId);
	}

	/** When a schedule is open, in `wide`. */
	openSpans(scheduleId: string): SpanSet {
		return remembered(this.#openBySchedule, scheduleId, () => {
			const schedule = this.schedules.get(scheduleId);
			if (!schedule) return noSpans;
			const { from, to } = this.wide;
			const [first, last] = [this.zone.dayAt(from), this.zone.dayAt(to)];
			return clip(openSpansOf(schedule, plusDays(first, -2), last, this.holidays, this.zone), from, to);
		});
	}

	/** The grants of an assignment for a door, by their places; empty where it grants none. */
	grantsOf(assignment: number, door: number): readonly Grant[] {
		return this.#grantsByAssignment[assignment]?.get(door) ?? [];
	}

	/** Places of the doors that an assignment grants at all. */
	doorsGrantedBy(assignment: number): Iterable<number> {
		return this.#grantsByAssignment[assignment]?.keys() ?? [];
	}

	/** When a grant is open, while its assignment is in force. */
	spansOfGrant(grant: Grant): SpanSet {
		const assignment = this.rollout.assignments[grant.assignment];
		const [from, until] = [assignment?.from ?? null, assignment?.until ?? null];
		return remembered(this.#spansByGrant, `${from}|${until}|${grant.schedule}`, () =>
			intersection(
				this.openSpans(grant.schedule),
				clip(spansOfLimits(this.zone, from, until), this.wide.from, this.wide.to)
			)
		);
	}

	/** The doors that a class may ever open in `wide`, gathered by when. */
	doorSetsOf(one: AccessClass): readonly DoorSet[] {
		return remembered(this.#doorSetsByClass, one.key, () => {
			const sets = this.#doorSetsWhileEmployed(one);
			if (this.#isAlwaysEmployed(one)) return sets;
			return sets
				.map(({ doors, spans }) => ({ doors, spans: intersection(spans, one.employed) }))
				.filter((set) => set.spans.length > 0);
		});
	}

	/** When a class may open a door, in `wide`. */
	doorSpansOf(one: AccessClass, door: number): SpanSet {
		return this.doorSetsOf(one).find((set) => set.doors.includes(door))?.spans ?? noSpans;
	}

	/** When a class can reach each area, in `wide`, by the area's place. */
	reachOf(one: AccessClass): readonly SpanSet[] {
		return remembered(this.#reachByClass, one.key, () => {
			const spans: Span[][] = this.building.areaIds.map(() => []);
			const courses = this.coursesOf(one);
			this.cells.cells.forEach((cell, place) => {
				const { bounds, states } = courses[place] as Course;
				states.forEach(({ reach }, at) => {
					const span = { from: cell.from + (bounds[at] as number), to: cell.from + (bounds[at + 1] as number) };
					reach.forEach((isReached, area) => {
						if (isReached) spans[area]?.push(span);
					});
				});
			});
			return spans.map(spanSetOf);
		});
	}

	/** What a class may open and can reach, cell by cell: while employed by its assignments, else what anybody can. */
	coursesOf(one: AccessClass): readonly Course[] {
		return remembered(this.#coursesByClass, one, () => this.cells.cells.map((_, cell) => this.courseOf(one, cell)));
	}

	/** As `coursesOf`, of the cell at a place alone. */
	courseOf(one: AccessClass, cell: number): Course {
		const day = this.cells.cells[cell]?.day ?? -Infinity;
		const isEmployed = one.firstDay <= day && day <= one.lastDay;
		return (isEmployed ? this.#timelineOf(one) : this.#timelineOfNobody).course(cell);
	}

	/**
	 * Doors (1 by their places) that a class may open on a date of the range, and of these the ones that it can get to then;
	 * `reach` where it is at hand.
	 */
	doorsOf(one: AccessClass, reach?: ClassReach): DoorsEver {
		const key = `${this.contentOf(one)} ${one.firstDay} ${one.lastDay}`;
		const known = this.#doorsByContent.get(key) ?? this.#carried?.doorsByContent.get(key);
		const doors = known ?? this.reachFinder.doorsOf(one, reach ?? this.reachFinder.reachOf(one), this.from, this.until);
		this.#doorsByContent.set(key, doors);
		return doors;
	}

	/** What assignments give, by content. */
	get contents(): Contents {
		this.#contents ??= new Contents(
			this.rollout,
			this.building,
			this.cells,
			(schedule) => this.openSpans(schedule),
			this.#carried
		);
		return this.#contents;
	}

	/** Tells what the assignments of a class give: equal texts, equal access while employed. */
	contentOf({ assignments }: AccessClass): string {
		const numbers = assignments.map((place) => this.contents.assignment(place).number);
		return [...new Set(numbers)].sort((a, b) => a - b).join();
	}

	/** What classes may open and reach by types of day: quicker than their courses where many classes are looked at. */
	get reachFinder(): ClassReachFinder {
		this.#reachFinder ??= new ClassReachFinder(this.building, this.cells, this.contents, (day) =>
			this.holidays.has(day as EpochDay)
		);
		return this.#reachFinder;
	}

	/** The classes; where neither people nor assignments changed, the very list of the model before. */
	#classesAfter(before: AccessModel | undefined): readonly AccessClass[] {
		const { rollout } = this;
		if (before && before.#people === this.#people && before.rollout.assignments === rollout.assignments) {
			this.#classByPerson = before.#classByPerson;
			return before.classes;
		}
		const classes = classesOf(rollout, this.#people, this.zone, this.wide);
		return before ? sameClasses(classes, before.classes) : classes;
	}

	#patternsOf(spans: SpanSet): Int32Array {
		return remembered(this.#patternsByGrant, spans, () => this.cells.of(spans));
	}

	/** The doors that an assignment grants, by when; what it grants at no time left out. */
	#partsOf(assignment: number): ReadonlyMap<SpanSet, readonly number[]> {
		return remembered(this.#partsByAssignment, assignment, () => {
			const parts = new Map<SpanSet, number[]>();
			for (const door of this.doorsGrantedBy(assignment)) {
				for (const grant of this.grantsOf(assignment, door)) {
					const spans = this.spansOfGrant(grant);
					if (spans.length > 0) remembered(parts, spans, () => []).push(door);
				}
			}
			return parts;
		});
	}

	#timelineOf(one: AccessClass): Timeline {
		return remembered(this.#timelineByAssignments, one.assignments.join(), () => {
			const parts = new Map<SpanSet, Set<number>>();
			for (const assignment of one.assignments) {
				for (const [spans, doors] of this.#partsOf(assignment)) {
					const known = remembered(parts, spans, () => new Set<number>());
					for (const door of doors) known.add(door);
				}
			}
			return new Timeline(
				this.building,
				this.cells,
				[...parts].map(([spans, doors]) => ({
					patterns: this.#patternsOf(spans),
					doors: [...doors]
				}))
			);
		});
	}

	#isAlwaysEmployed({ employed }: AccessClass): boolean {
		return employed.length === 1 && employed[0]?.from === this.wide.from && employed[0].to === this.wide.to;
	}

	#doorSetsWhileEmployed(one: AccessClass): readonly DoorSet[] {
		return remembered(this.#doorSetsByAssignments, one.assignments.join(), () => {
			const partsByDoor = new Map<number, Set<SpanSet>>();
			for (const assignment of one.assignments) {
				for (const door of this.doorsGrantedBy(assignment)) {
					const parts = partsByDoor.get(door) ?? new Set();
					for (const grant of this.grantsOf(assignment, door)) parts.add(this.spansOfGrant(grant));
					partsByDoor.set(door, parts);
				}
			}
			return gatheredByParts(partsByDoor);
		});
	}
}

/** What a model takes over from the one before: only where cells and building are the same. */
interface Carried {
	readonly contents: Contents;
	readonly areHolidaysSame: boolean;
	readonly doorsByContent: ReadonlyMap<string, DoorsEver>;
}

function areSameHolidays(a: ReadonlyMap<EpochDay, Holiday>, b: ReadonlyMap<EpochDay, Holiday>): boolean {
	return a.size === b.size && [...a].every(([day, { kind }]) => b.get(day)?.kind === kind);
}

function grantsByAssignment(rollout: Rollout, building: Building): ReadonlyMap<number, readonly Grant[]>[] {
	const groupById = new Map(rollout.doorGroups.map((group) => [group.id, group]));
	const profileById = new Map(rollout.accessProfiles.map((profile) => [profile.id, profile]));
	return rollout.assignments.map((assignment, place) => {
		const byDoor = new Map<number, Grant[]>();
		profileById.get(assignment.accessProfile)?.entries.forEach(({ doorGroup, schedule }, entry) => {
			for (const doorId of new Set(groupById.get(doorGroup)?.doors)) {
				const door = building.doorPlaceById.get(doorId) as number;
				const grants = byDoor.get(door) ?? [];
				grants.push({ assignment: place, entry, schedule });
				byDoor.set(door, grants);
			}
		});
		return byDoor;
	});
}

export type { AccessClass };
