import {
	type PlainAssignment,
	type PlainDocument,
	type PlainDoor,
	type PlainPerson,
	type PlainSchedule,
	all,
	byId,
	isGiven,
	isWithin
} from './plain-rollout';
import { Timeline, dayOfWeek, daysBetween, plusDays } from './timeline';

/**
 * A second answer to who may open what, when, and which shifts are covered: every minute by itself, straight from the
 * words of the document format. Slow and obvious on purpose.
 */

/** A stretch as it was written, on the date on which it begins. */
export interface DatedStretch {
	readonly text: string;
	readonly date: string;
	readonly start: number;
	readonly end: number;
}

/** One way in which a person gets a door: an entry of the profile of an assignment that names the person. */
export interface Grant {
	readonly assignment: PlainAssignment;
	/** Position of the entry in its profile. */
	readonly entry: number;
	readonly doorGroup: string;
	readonly schedule: PlainSchedule;
}

/** A shift that begins on a date, from early arrival to its end. */
export interface DatedShift {
	readonly date: string;
	readonly from: number;
	readonly to: number;
}

export class AccessOracle {
	readonly document: PlainDocument;
	readonly time: Timeline;
	#horizon: number[] | undefined;
	readonly #openBySchedule = new Map<string, Uint8Array>();
	readonly #mayOpen = new Map<string, Uint8Array>();
	readonly #reached = new Map<string, Uint8Array>();
	readonly #stretches = new Map<string, readonly DatedStretch[]>();

	/** Looks at the dates given (the horizon where none are) and a few days around them. */
	constructor(document: PlainDocument, from = document.horizon.from, until = document.horizon.until) {
		this.document = document;
		this.time = new Timeline(document.site.timeZone, from, until);
	}

	/** The kind of holiday that a date is; the first entry counts. */
	kindOf(date: string): string | undefined {
		return all(this.document.holidays?.days).find((day) => day.date === date)?.kind;
	}

	/** What a schedule does on a date, before anything is carried into it. */
	dayOf(schedule: PlainSchedule, date: string): 'not-valid' | 'ordinary' | 'undecided' | 'closed' | readonly string[] {
		if (!isWithin(date, schedule.from, schedule.until)) return 'not-valid';
		const kind = this.kindOf(date);
		if (kind === undefined) return 'ordinary';
		const treatment =
			isGiven(schedule.holidays) && Object.hasOwn(schedule.holidays, kind) ? schedule.holidays[kind] : null;
		if (!isGiven(treatment)) return 'undecided';
		return treatment === 'normal' ? 'ordinary' : treatment;
	}

	/** The stretches that begin on a date, whole: what cuts them comes later. */
	stretchesOn(schedule: PlainSchedule, date: string): readonly DatedStretch[] {
		const key = `${schedule.id}\n${date}`;
		const known = this.#stretches.get(key);
		if (known !== undefined) return known;
		const day = this.dayOf(schedule, date);
		const texts =
			day === 'ordinary' ? all(schedule.week?.[dayOfWeek(date)]) : Array.isArray(day) ? (day as string[]) : [];
		const stretches = this.time.hasDate(date) ? texts.map((text) => this.#dated(text, date)) : [];
		this.#stretches.set(key, stretches);
		return stretches;
	}

	#dated(text: string, date: string): DatedStretch {
		const [from = '', to = ''] = text.split('-');
		const endsNextDate = to !== '24:00' && to <= from;
		return {
			text,
			date,
			start: this.time.minuteOf(date, from),
			end: this.time.minuteOf(endsNextDate ? plusDays(date, 1) : date, to)
		};
	}

	/**
	 * True when a stretch holds at a minute. On its own date it does; a date into which it is carried cuts it at that date's
	 * first instant, unless it is ordinary; and so does a date back into which the clock is turned.
	 */
	holds(schedule: PlainSchedule, stretch: DatedStretch, minute: number): boolean {
		if (minute < stretch.start || minute >= stretch.end) return false;
		const local = this.time.dateAt(minute);
		if (local < stretch.date) return this.dayOf(schedule, local) === 'ordinary';
		const next = plusDays(stretch.date, 1);
		const isCarried = minute >= this.time.firstMinuteOf(next);
		if (isCarried && this.dayOf(schedule, next) !== 'ordinary') return false;
		return local === stretch.date || this.dayOf(schedule, local) === 'ordinary';
	}

	/** The stretches of a schedule that hold at a minute. */
	stretchesAt(schedule: PlainSchedule, minute: number): readonly DatedStretch[] {
		const local = this.time.dateAt(minute);
		return [-2, -1, 0, 1]
			.map((days) => plusDays(local, days))
			.flatMap((date) => this.stretchesOn(schedule, date))
			.filter((stretch) => this.holds(schedule, stretch, minute));
	}

	/** For each minute whether a schedule is open. */
	openMinutes(schedule: PlainSchedule): Uint8Array {
		const known = this.#openBySchedule.get(schedule.id);
		if (known !== undefined) return known;
		const open = new Uint8Array(this.time.length);
		for (const date of this.time.dates) {
			for (const stretch of this.stretchesOn(schedule, date)) {
				for (let minute = Math.max(0, stretch.start); minute < Math.min(stretch.end, open.length); minute++) {
					if (this.holds(schedule, stretch, minute)) open[minute] = 1;
				}
			}
		}
		this.#openBySchedule.set(schedule.id, open);
		return open;
	}

	matches(assignment: PlainAssignment, person: PlainPerson): boolean {
		const { everyone, people, departments, jobs, waves } = assignment.who;
		return (
			everyone === true ||
			all(people).includes(person.id) ||
			(isGiven(person.department) && all(departments).includes(person.department)) ||
			(isGiven(person.job) && all(jobs).includes(person.job)) ||
			(isGiven(person.wave) && all(waves).includes(person.wave))
		);
	}

	/** Every entry of every assignment that names the person and whose group holds the door, in force or not. */
	grantsOf(person: PlainPerson, door: string): readonly Grant[] {
		return all(this.document.assignments)
			.filter((assignment) => this.matches(assignment, person))
			.flatMap((assignment) =>
				all(byId(this.document.accessProfiles, assignment.accessProfile).entries).flatMap((entry, index) =>
					all(byId(this.document.doorGroups, entry.doorGroup).doors).includes(door)
						? [
								{
									assignment,
									entry: index,
									doorGroup: entry.doorGroup,
									schedule: byId(this.document.schedules, entry.schedule)
								}
							]
						: []
				)
			);
	}

	/** For each date of the timeline whether somebody is employed and an assignment in force. */
	datesInForce(person: PlainPerson, assignment: PlainAssignment): Uint8Array {
		return Uint8Array.from(this.time.dates, (date) =>
			isWithin(date, person.startsOn, person.leavesOn) && isWithin(date, assignment.from, assignment.until) ? 1 : 0
		);
	}

	/** For each minute whether a grant opens its door to a person. */
	openByGrant(person: PlainPerson, grant: Grant): Uint8Array {
		const inForce = this.datesInForce(person, grant.assignment);
		return this.openMinutes(grant.schedule).map((isOpen, minute) =>
			isOpen === 1 && inForce[this.time.dateIndexAt(minute)] === 1 ? 1 : 0
		);
	}

	/** For each minute whether a person may open a door. */
	mayOpen(person: PlainPerson, door: string): Uint8Array {
		const key = `${person.id}\n${door}`;
		const known = this.#mayOpen.get(key);
		if (known !== undefined) return known;
		const may = new Uint8Array(this.time.length);
		for (const grant of this.grantsOf(person, door)) {
			this.openByGrant(person, grant).forEach((isOpen, minute) => {
				if (isOpen === 1) may[minute] = 1;
			});
		}
		this.#mayOpen.set(key, may);
		return may;
	}

	/** For each minute which areas a person can reach: bit n for the area at position n. */
	reachedAreas(person: PlainPerson): Uint8Array {
		const known = this.#reached.get(person.id);
		if (known !== undefined) return known;
		const doors = all(this.document.doors);
		const may = doors.map((door) => this.mayOpen(person, door.id));
		const areasByOpenDoors = new Map<number, number>();
		const reached = new Uint8Array(this.time.length);
		for (let minute = 0; minute < reached.length; minute++) {
			const openDoors = may.reduce((bits, open, index) => bits | ((open[minute] ?? 0) << index), 0);
			const areas = areasByOpenDoors.get(openDoors) ?? this.areasReachedThrough(openDoors);
			areasByOpenDoors.set(openDoors, areas);
			reached[minute] = areas;
		}
		this.#reached.set(person.id, reached);
		return reached;
	}

	/** The areas that can be reached when the doors whose bits are set may be opened. */
	areasReachedThrough(openDoors: number): number {
		const areas = all(this.document.areas);
		const bitOf = (area: string): number => 1 << areas.findIndex((one) => one.id === area);
		let reached = areas.filter((area) => area.outside === true).reduce((bits, area) => bits | bitOf(area.id), 0);
		for (;;) {
			const before = reached;
			all(this.document.doors).forEach((door, index) => {
				const isOpen = (openDoors & (1 << index)) !== 0;
				if (isOpen && reached & bitOf(door.from)) reached |= bitOf(door.to);
				if ((isOpen || isFreeExit(door)) && reached & bitOf(door.to)) reached |= bitOf(door.from);
			});
			if (reached === before) return reached;
		}
	}

	canReach(person: PlainPerson, area: string, minute: number): boolean {
		const index = all(this.document.areas).findIndex((one) => one.id === area);
		return ((this.reachedAreas(person)[minute] ?? 0) & (1 << index)) !== 0;
	}

	/** The shifts of a person that are checked, in order of their dates. */
	checkedShifts(person: PlainPerson): readonly DatedShift[] {
		if (!isGiven(person.shiftPattern)) return [];
		const pattern = byId(this.document.shiftPatterns, person.shiftPattern);
		const wave = isGiven(person.wave) ? byId(this.document.enrollment?.waves, person.wave) : undefined;
		const absences = all(this.document.absences).filter((absence) => absence.person === person.id);
		const shifts: DatedShift[] = [];
		for (const date of this.time.dates) {
			if (!isWithin(date, this.document.horizon.from, this.document.horizon.until)) continue;
			if (!this.time.hasDate(date) || !isWithin(date, wave?.goLive, null)) continue;
			if (!isWithin(date, person.startsOn, person.leavesOn)) continue;
			if (absences.some((absence) => isWithin(date, absence.from, absence.until))) continue;
			const kind = this.kindOf(date);
			if (kind !== undefined && !all(pattern.worksOn).includes(kind)) continue;
			const days = daysBetween(pattern.anchor, date);
			const dayOfCycle = ((days % pattern.cycleDays) + pattern.cycleDays) % pattern.cycleDays;
			for (const shift of all(pattern.shifts)) {
				if (shift.day !== dayOfCycle) continue;
				const { start, end } = this.#dated(shift.at, date);
				// A stretch that is empty once both ends are instants is no shift at all.
				if (start >= end) continue;
				shifts.push({ date, from: start - (this.document.site.arriveEarlyMinutes ?? 0), to: end });
			}
		}
		return shifts;
	}

	/** The minutes of a shift in which one of the person's work areas cannot be reached. */
	uncoveredMinutes(person: PlainPerson, shift: DatedShift): readonly number[] {
		const minutes: number[] = [];
		for (let minute = shift.from; minute < shift.to; minute++) {
			if (all(person.workAreas).some((area) => !this.canReach(person, area, minute))) minutes.push(minute);
		}
		return minutes;
	}

	/**
	 * The minutes whose local date is in the horizon. Where a clock is turned back past midnight these are not quite the ones
	 * from the first instant of its first date to the first one after its last.
	 */
	horizonMinutes(): readonly number[] {
		if (this.#horizon === undefined) {
			const { from, until } = this.document.horizon;
			this.#horizon = [];
			for (let minute = 0; minute < this.time.length; minute++) {
				const index = this.time.dateIndexAt(minute);
				if (index >= this.time.indexOf(from) && index <= this.time.indexOf(until)) this.#horizon.push(minute);
			}
		}
		return this.#horizon;
	}

	/** True when a person may open a door at some minute of the horizon. */
	mayEverOpen(person: PlainPerson, door: string): boolean {
		const may = this.mayOpen(person, door);
		return this.horizonMinutes().some((minute) => may[minute] === 1);
	}

	/** From the first instant of a date to the first one after another. */
	minutesOfDates(from: string, until: string): { readonly from: number; readonly to: number } {
		return { from: this.time.firstMinuteOf(from), to: this.time.firstMinuteOf(plusDays(until, 1)) };
	}
}

/** True for a door through which one leaves with no credential. */
export function isFreeExit(door: PlainDoor): boolean {
	return door.exit !== 'reader';
}
