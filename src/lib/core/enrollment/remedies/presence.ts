import { type EpochDay, epochDayOf, plusDays } from '../../calendar/local-date';
import { type Span, type SpanSet, difference, spanSetOf } from '../../calendar/spans';
import type { Person } from '../../document/schema';
import type { EnrollmentModel, ReadyStation } from '../model';

/** People who are alike for enrolling: the same free time, way, wave, needs and station time. */
export interface Profile {
	/** One of them. */
	readonly person: Person;
	readonly minutes: number;
	readonly count: number;
	/** How many of them are not booked. */
	readonly missing: number;
}

/** The profiles of some people, those of most who are missing first; people without a station time are left out. */
export function profilesOf(model: EnrollmentModel, people: readonly Person[], missing: ReadonlySet<string>): Profile[] {
	const profiles = new Map<string, { person: Person; minutes: number; count: number; missing: number }>();
	for (const person of people) {
		const minutes = model.minutesOf(person);
		if (minutes === undefined) continue;
		const key = likenessOf(model, person);
		const own = profiles.get(key) ?? { person, minutes, count: 0, missing: 0 };
		own.count++;
		if (missing.has(person.id)) own.missing++;
		profiles.set(key, own);
	}
	return [...profiles.values()].sort((a, b) => b.missing - a.missing || b.count - a.count);
}

/** The same text for people who are alike for enrolling. */
export function likenessOf(model: EnrollmentModel, person: Person): string {
	const { absences } = model.employedDaysOf(person);
	return JSON.stringify([
		person.shiftPattern,
		person.startsOn,
		person.leavesOn,
		absences,
		person.wave,
		[...person.needs].sort(),
		[...person.workAreas].sort(),
		model.minutesOf(person),
		person.department !== null && model.maxAwayByDepartment.has(person.department) ? person.department : null
	]);
}

/** Dates within which stations may be opened anew. */
export interface Dates {
	readonly from: EpochDay;
	readonly until: EpochDay;
}

/** From the first date of the horizon, or of a station, to the due date; without one, to the last. */
export function datesOnTime(model: EnrollmentModel, person: Person): Dates {
	const { horizon } = model.rollout;
	const opens = model.openDays?.from ?? epochDayOf(horizon.from);
	const from = Math.min(opens, epochDayOf(horizon.from)) as EpochDay;
	const due = model.enrollByOf(person);
	const closes = Math.max(model.openDays?.until ?? -Infinity, epochDayOf(horizon.until)) as EpochDay;
	return { from, until: due === null ? closes : epochDayOf(due) };
}

/** Days after a due date that are looked at. */
export const mostDaysLate = 60;

/**
 * When somebody could be at a station if it were open, whatever it serves: within one of their shifts, walks taken off, and by the
 * end of the last date; only pieces that are long enough.
 */
export function visitSpans(model: EnrollmentModel, { person, minutes }: Profile, area: string, dates: Dates): SpanSet {
	const walk = model.walkOf(person, area);
	const [opens, closes] = [model.zone.midnightOf(dates.from), model.zone.midnightOf(plusDays(dates.until, 1))];
	const spans = model.freeSpansOf(person, dates.from, dates.until).flatMap(({ from, to }): Span[] => {
		const [begin, end] = [Math.max(from + walk, opens), Math.min(to - walk, closes)];
		return end - begin >= minutes * 60 ? [{ from: begin, to: end }] : [];
	});
	return spanSetOf(spans);
}

/** Of these spans, what lies outside of a station's open stretches, and is long enough for a visit. */
export function closedSpans(spans: SpanSet, { stretches }: ReadyStation, minutes: number): SpanSet {
	return difference(spans, spanSetOf(stretches)).filter(({ from, to }) => to - from >= minutes * 60);
}
