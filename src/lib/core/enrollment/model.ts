import { holidaysByDay } from '../access/holidays';
import { type ReadyPattern, readyPattern, shiftsOfPattern } from '../access/shifts';
import { instantsOfStretch } from '../access/schedule-days';
import { type EpochDay, type LocalDate, epochDayOf, plusDays } from '../calendar/local-date';
import { wallTimeOf } from '../calendar/local-date-time';
import { type Span, type SpanSet, difference, intersection } from '../calendar/spans';
import { stretch } from '../calendar/stretch';
import { type Instant, Zone } from '../calendar/zone';
import type { Holiday, Person, Rollout, Station } from '../document/schema';
import { type Standing, standingByPerson } from './standing';

/** One open stretch of a station, with its instants. */
export interface OpenStretch extends Span {
	readonly date: LocalDate;
	readonly at: string;
	/** Place in the document's list; of stretches that overlap the first there has the booking. */
	readonly place: number;
}

/** A station with its open stretches in the order of time; stretches that are empty once they are instants are left out. */
export interface ReadyStation {
	readonly station: Station;
	readonly serves: ReadonlySet<string>;
	readonly stretches: readonly OpenStretch[];
}

interface EmployedDays {
	readonly from: number;
	readonly until: number;
	readonly absences: readonly { readonly from: number; readonly until: number }[];
}

/**
 * What a rollout says about enrolling, made ready once: stations on the time line, when people can leave their work, how far
 * they walk, until when they must be done. Instants and walks are in seconds.
 */
export class EnrollmentModel {
	readonly rollout: Rollout;
	readonly zone: Zone;
	readonly holidays: ReadonlyMap<EpochDay, Holiday>;
	readonly peopleById: ReadonlyMap<string, Person>;
	readonly stations: readonly ReadyStation[];
	readonly stationsById: ReadonlyMap<string, ReadyStation>;
	readonly standings: ReadonlyMap<string, Standing>;
	/** The least limit of each limited department; a department may be listed more than once. */
	readonly maxAwayByDepartment: ReadonlyMap<string, number>;
	/** First and last date on which a station opens; undefined where none does. */
	readonly openDays: { readonly from: EpochDay; readonly until: EpochDay } | undefined;
	readonly #patterns: ReadonlyMap<string, ReadyPattern>;
	readonly #classMinutes: ReadonlyMap<string, number>;
	readonly #absencesByPerson = new Map<string, { from: number; until: number }[]>();
	readonly #enrollByByWave: ReadonlyMap<string, LocalDate | null>;
	readonly #walks = new Map<string, number>();
	readonly #shifts = new Map<string, readonly (Span & { readonly day: EpochDay })[]>();

	constructor(rollout: Rollout) {
		const { enrollment, horizon } = rollout;
		this.rollout = rollout;
		const days = enrollment.stations.flatMap((station) => station.open.map((opening) => epochDayOf(opening.date)));
		const [first, last] = [least(days), most(days)];
		this.openDays = first === undefined || last === undefined ? undefined : { from: first, until: last };
		const known = [...days, ...enrollment.bookings.map((booking) => wallTimeOf(booking.start).day)];
		known.push(epochDayOf(horizon.from), epochDayOf(horizon.until));
		this.zone = new Zone(
			rollout.site.timeZone,
			Math.max(least(known) as EpochDay, epochDayOf(horizon.from) - farDays) as EpochDay,
			Math.min(most(known) as EpochDay, epochDayOf(horizon.until) + farDays) as EpochDay
		);
		this.holidays = holidaysByDay(rollout);
		this.peopleById = new Map(rollout.people.map((person) => [person.id, person]));
		this.stations = enrollment.stations.map((station) => this.#ready(station));
		this.stationsById = new Map(this.stations.map((ready) => [ready.station.id, ready]));
		this.standings = standingByPerson(rollout);
		const limits = new Map<string, number>();
		for (const { department, maxAway } of enrollment.awayLimits) {
			if (maxAway !== null) limits.set(department, Math.min(maxAway, limits.get(department) ?? Infinity));
		}
		this.maxAwayByDepartment = limits;
		this.#patterns = new Map(rollout.shiftPatterns.map((pattern) => [pattern.id, readyPattern(pattern)]));
		this.#classMinutes = new Map(enrollment.captureClasses.map((one) => [one.id, one.minutes]));
		this.#enrollByByWave = new Map(enrollment.waves.map((wave) => [wave.id, wave.enrollBy]));
		for (const { person, from, until } of rollout.absences) {
			const list = this.#absencesByPerson.get(person) ?? [];
			list.push({ from: dayOr(from, -Infinity), until: dayOr(until, Infinity) });
			this.#absencesByPerson.set(person, list);
		}
		for (const { between, minutes } of enrollment.walks) {
			for (const key of [walkKey(between[0], between[1]), walkKey(between[1], between[0])]) {
				this.#walks.set(key, Math.min(minutes * 60, this.#walks.get(key) ?? Infinity));
			}
		}
	}

	#ready(station: Station): ReadyStation {
		const stretches = station.open.flatMap(({ date, at }, place) => {
			const day = epochDayOf(date);
			const { from, to } = instantsOfStretch(stretch(at), day, this.zone);
			return this.zone.hasDate(day) && from < to ? [{ date, at, place, from, to }] : [];
		});
		return {
			station,
			serves: new Set(station.serves),
			stretches: stretches.sort((a, b) => a.from - b.from || a.to - b.to)
		};
	}

	/** Minutes for which a stretch of a date really lasts: by the clock, but for the hour that a clock change skips or repeats. */
	minutesOpen({ date, at }: Pick<OpenStretch, 'date' | 'at'>): number {
		const { from, to } = instantsOfStretch(stretch(at), epochDayOf(date), this.zone);
		return Math.max(0, to - from) / 60;
	}

	/** Station time of a person in minutes, by their capture class; undefined where the rollout has no class at all. */
	minutesOf(person: Person): number | undefined {
		const captureClass = person.captureClass ?? this.rollout.enrollment.captureClasses[0]?.id;
		return captureClass === undefined ? undefined : this.#classMinutes.get(captureClass);
	}

	/**
	 * Seconds that a person walks to an area: the least `walks` entry between one of their work areas and it, 0 where none is
	 * given. A work area without an entry does not count as 0 beside one that has an entry, not even the area itself.
	 */
	walkOf(person: Pick<Person, 'workAreas'>, area: string): number {
		const entries = person.workAreas.map((from) => this.#walks.get(walkKey(from, area)) ?? Infinity);
		const least = entries.reduce((best, entry) => Math.min(best, entry), Infinity);
		return least === Infinity ? 0 : least;
	}

	/** The date by which a person must be enrolled; null for a wave that has none. No wave: the end of the horizon. */
	enrollByOf(person: Person): LocalDate | null {
		if (person.wave === null) return this.rollout.horizon.until;
		return this.#enrollByByWave.get(person.wave) ?? null;
	}

	/** The first instant after a date. */
	endOf(date: LocalDate): Instant {
		return this.zone.midnightOf(plusDays(epochDayOf(date), 1));
	}

	/** Dates of employment and absence as whole numbers, infinite where there is no limit. */
	employedDaysOf(person: Person): EmployedDays {
		return {
			from: dayOr(person.startsOn, -Infinity),
			until: dayOr(person.leavesOn, Infinity),
			absences: this.#absencesByPerson.get(person.id) ?? []
		};
	}

	/**
	 * Spans that touch the dates `from` to `until`, in one of which an absence from the workplace must lie whole: the shifts,
	 * each by itself, cut to the dates of employment; without a shift pattern, all time employed and not absent. An absence
	 * takes away the shifts that start on its dates, not the rest of a night shift that began before.
	 */
	freeSpansOf(person: Person, from: EpochDay, until: EpochDay): readonly Span[] {
		const days = this.employedDaysOf(person);
		const employed = this.zone.spansOfDates(days.from as EpochDay, days.until as EpochDay);
		if (person.shiftPattern === null) return this.#presentSpans(days, employed, from, until);
		const spans: Span[] = [];
		for (const shift of this.#shiftsOf(person.shiftPattern, plusDays(from, -2), until)) {
			if (shift.day < days.from || shift.day > days.until) continue;
			if (days.absences.some((absence) => absence.from <= shift.day && shift.day <= absence.until)) continue;
			if (days.until > shift.day + 2 && days.from <= shift.day) spans.push({ from: shift.from, to: shift.to });
			else spans.push(...intersection([shift], employed));
		}
		return spans;
	}

	#presentSpans(days: EmployedDays, employed: SpanSet, from: EpochDay, until: EpochDay): SpanSet {
		let present = intersection(employed, this.zone.spansOfDates(plusDays(from, -2), plusDays(until, 2)));
		for (const absence of days.absences) {
			present = difference(present, this.zone.spansOfDates(absence.from as EpochDay, absence.until as EpochDay));
		}
		return present;
	}

	#shiftsOf(pattern: string, from: EpochDay, until: EpochDay): readonly (Span & { readonly day: EpochDay })[] {
		const key = `${from} ${until} ${pattern}`;
		let shifts = this.#shifts.get(key);
		if (!shifts) {
			const ready = this.#patterns.get(pattern);
			shifts = ready ? shiftsOfPattern(ready, from, until, this.holidays, this.zone) : [];
			this.#shifts.set(key, shifts);
		}
		return shifts;
	}
}

/** Days beyond the horizon up to which clock changes are asked for; a slip of the pen may name a date in millennia. */
const farDays = 36_525;

function walkKey(from: string, to: string): string {
	return `${from}\n${to}`;
}

function dayOr(date: LocalDate | null, otherwise: number): number {
	return date === null ? otherwise : epochDayOf(date);
}

function least(days: readonly EpochDay[]): EpochDay | undefined {
	return days.reduce<EpochDay | undefined>((best, day) => (best === undefined || day < best ? day : best), undefined);
}

function most(days: readonly EpochDay[]): EpochDay | undefined {
	return days.reduce<EpochDay | undefined>((best, day) => (best === undefined || day > best ? day : best), undefined);
}
