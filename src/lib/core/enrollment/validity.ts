import type { LocalDate } from '../calendar/local-date';
import { type LocalDateTime, wallTimeOf } from '../calendar/local-date-time';
import type { Span } from '../calendar/spans';
import type { Booking, Person } from '../document/schema';
import type { EnrollmentModel, OpenStretch } from './model';

/** A person's time at a station, as the plan answers it; a booking of the document is one too. */
export type PlannedBooking = Pick<Booking, 'person' | 'station' | 'lane' | 'start' | 'minutes'>;

/**
 * Why a booking is not valid, as data; `rule` is the number of the rule in "a valid enrollment plan". Who judges and who
 * plans use this one list, so that a person can be told the same reason everywhere.
 */
export type BookingProblem =
	| { readonly rule: 1; readonly code: 'unknown-person' | 'unknown-station'; readonly id: string }
	| { readonly rule: 1; readonly code: 'booked-twice'; readonly start: LocalDateTime; readonly station: string }
	| { readonly rule: 1; readonly code: 'wrong-minutes'; readonly expected: number | null }
	| { readonly rule: 1; readonly code: 'off-grid'; readonly gridMinutes: number }
	| { readonly rule: 2; readonly code: 'no-such-lane'; readonly lanes: number }
	| { readonly rule: 2; readonly code: 'station-closed'; readonly open: readonly string[] }
	| { readonly rule: 2; readonly code: 'lane-taken'; readonly by: string; readonly turnoverMinutes: number }
	| { readonly rule: 3; readonly code: 'not-free'; readonly walkMinutes: number; readonly hasPattern: boolean }
	| { readonly rule: 4; readonly code: 'needs-not-served'; readonly needs: readonly string[] }
	| { readonly rule: 5; readonly code: 'after-enroll-by'; readonly enrollBy: LocalDate }
	| { readonly rule: 6; readonly code: 'away-limit'; readonly department: string; readonly maxAway: number }
	| { readonly rule: 7; readonly code: 'fixed-moved'; readonly start: LocalDateTime; readonly station: string }
	| { readonly rule: 8; readonly code: 'declined' | 'enrolled' };

/** A booking on the time line (epoch seconds), with what it takes from the department. */
export interface TimedBooking {
	readonly booking: PlannedBooking;
	readonly person: Person;
	readonly from: number;
	readonly to: number;
	/** One-way walk in seconds. */
	readonly walk: number;
	/** From leaving the workplace to being back. */
	readonly away: Span;
}

/** Puts a booking on the time line; undefined when its person or its station is unknown. */
export function timedBooking(model: EnrollmentModel, booking: PlannedBooking): TimedBooking | undefined {
	const person = model.peopleById.get(booking.person);
	const ready = model.stationsById.get(booking.station);
	if (!person || !ready) return undefined;
	const from = model.zone.instantOf(wallTimeOf(booking.start));
	const to = from + booking.minutes * 60;
	const walk = model.walkOf(person, ready.station.area);
	return { booking, person, from, to, walk, away: { from: from - walk, to: to + walk } };
}

/** True when a time lies inside an open stretch: it starts in it, before its end, and ends by its end. */
export function isInside(stretch: Span, from: number, to: number): boolean {
	return stretch.from <= from && from < stretch.to && to <= stretch.to;
}

/** The open stretch in which a booking lies; the first of the list where stretches of the station overlap. */
export function findStretch(model: EnrollmentModel, booking: PlannedBooking): OpenStretch | undefined {
	const timed = timedBooking(model, booking);
	const stretches = model.stationsById.get(booking.station)?.stretches;
	return timed && stretches ? stretchAround(stretches, timed.from, timed.to) : undefined;
}

/** Of some stretches the one in which a time lies, the first of the document's list where they overlap. */
export function stretchAround(stretches: readonly OpenStretch[], from: number, to: number): OpenStretch | undefined {
	let found: OpenStretch | undefined;
	for (const stretch of stretches) {
		if (isInside(stretch, from, to) && (!found || stretch.place < found.place)) found = stretch;
	}
	return found;
}

/**
 * What is wrong with a booking whoever else is booked: rules 1 (station time and grid), 2 (open stretch and lane), 3, 4, 5
 * and 8. Empty when nothing is. What hangs on other bookings (one a person, lanes, away-limits, fixed) is judged by
 * `judgeBookings`.
 */
export function problemsAlone(model: EnrollmentModel, booking: PlannedBooking): BookingProblem[] {
	const person = model.peopleById.get(booking.person);
	if (!person) return [{ rule: 1, code: 'unknown-person', id: booking.person }];
	const ready = model.stationsById.get(booking.station);
	if (!ready) return [{ rule: 1, code: 'unknown-station', id: booking.station }];
	const problems: BookingProblem[] = [];
	const { gridMinutes } = model.rollout.enrollment;
	const expected = model.minutesOf(person) ?? null;
	if (booking.minutes !== expected) problems.push({ rule: 1, code: 'wrong-minutes', expected });
	const wall = wallTimeOf(booking.start);
	if (wall.minute % gridMinutes !== 0) problems.push({ rule: 1, code: 'off-grid', gridMinutes });

	const { lanes } = ready.station;
	if (booking.lane < 1 || booking.lane > lanes) problems.push({ rule: 2, code: 'no-such-lane', lanes });
	const from = model.zone.instantOf(wall);
	const to = from + booking.minutes * 60;
	if (!ready.stretches.some((stretch) => isInside(stretch, from, to))) {
		const date = booking.start.slice(0, 10);
		const open = ready.stretches.filter((stretch) => stretch.date === date).map((stretch) => stretch.at);
		problems.push({ rule: 2, code: 'station-closed', open });
	}

	const walk = model.walkOf(person, ready.station.area);
	const free = model.freeSpansOf(person, model.zone.dayAt(from), model.zone.dayAt(from));
	if (!free.some((span) => span.from <= from - walk && to + walk <= span.to)) {
		problems.push({ rule: 3, code: 'not-free', walkMinutes: walk / 60, hasPattern: person.shiftPattern !== null });
	}
	const needs = person.needs.filter((need) => !ready.serves.has(need));
	if (needs.length > 0) problems.push({ rule: 4, code: 'needs-not-served', needs });
	const enrollBy = model.enrollByOf(person);
	if (enrollBy !== null && to > model.endOf(enrollBy)) problems.push({ rule: 5, code: 'after-enroll-by', enrollBy });
	const standing = model.standings.get(person.id);
	if (standing === 'declined' || standing === 'enrolled') problems.push({ rule: 8, code: standing });
	return problems;
}
