import type { Booking, Rollout } from '../document/schema';
import { EnrollmentModel } from './model';
import { type BookingProblem, type PlannedBooking, type TimedBooking, problemsAlone, timedBooking } from './validity';

/** A booking and everything that is wrong with it; nothing is, when the list is empty. */
export interface Judgement {
	readonly booking: PlannedBooking;
	readonly problems: readonly BookingProblem[];
}

/**
 * Judges bookings, taken together, by all eight rules of a valid enrollment plan. Where two collide (a lane, a person twice),
 * the one that comes later in time, or in the list, is told; where too many are away, everybody who is away then.
 * Judgements stand in the order of the bookings.
 */
export function judgeBookings(of: EnrollmentModel | Rollout, bookings: readonly PlannedBooking[]): Judgement[] {
	const model = of instanceof EnrollmentModel ? of : new EnrollmentModel(of);
	const problems = bookings.map((booking) => problemsAlone(model, booking));
	const timed = bookings.map((booking) => timedBooking(model, booking));
	judgePeople(bookings, problems);
	judgeLanes(model, timed, problems);
	judgeAway(model, timed, problems);
	judgeFixed(model, bookings, problems);
	return bookings.map((booking, index) => ({ booking, problems: problems[index] ?? [] }));
}

/** What would be wrong with `changed` if it took the place of its person's booking among `bookings`. */
export function judgeMove(
	of: EnrollmentModel | Rollout,
	bookings: readonly PlannedBooking[],
	changed: PlannedBooking
): readonly BookingProblem[] {
	const model = of instanceof EnrollmentModel ? of : new EnrollmentModel(of);
	const department = model.peopleById.get(changed.person)?.department ?? null;
	// Only bookings of the same station or department can stand in the way.
	const near = bookings.filter(({ person, station }) => {
		if (person === changed.person) return false;
		return (
			station === changed.station || (department !== null && model.peopleById.get(person)?.department === department)
		);
	});
	const judged = judgeBookings(model, [...near, changed]);
	// A collision is told at the later of two bookings; here it is the moved one that is judged.
	const collisions = judged
		.slice(0, -1)
		.flatMap(({ booking, problems: found }) =>
			found.flatMap((problem): BookingProblem[] =>
				problem.code === 'lane-taken' && problem.by === changed.person ? [{ ...problem, by: booking.person }] : []
			)
		);
	const own = judged.at(-1)?.problems ?? [];
	return own.some((problem) => problem.code === 'lane-taken') ? own : [...own, ...collisions.slice(0, 1)];
}

function judgePeople(bookings: readonly PlannedBooking[], problems: BookingProblem[][]): void {
	const first = new Map<string, PlannedBooking>();
	bookings.forEach((booking, index) => {
		const other = first.get(booking.person);
		if (!other) first.set(booking.person, booking);
		else problems[index]?.push({ rule: 1, code: 'booked-twice', start: other.start, station: other.station });
	});
}

function judgeLanes(
	model: EnrollmentModel,
	timed: readonly (TimedBooking | undefined)[],
	problems: BookingProblem[][]
): void {
	const lanes = new Map<string, { readonly one: TimedBooking; readonly index: number }[]>();
	timed.forEach((one, index) => {
		if (!one) return;
		const key = `${one.booking.lane} ${one.booking.station}`;
		const lane = lanes.get(key) ?? [];
		lane.push({ one, index });
		lanes.set(key, lane);
	});
	for (const lane of lanes.values()) {
		lane.sort((a, b) => a.one.from - b.one.from || a.one.to - b.one.to || a.index - b.index);
		let before: TimedBooking | undefined;
		for (const { one, index } of lane) {
			const turnoverMinutes = model.stationsById.get(one.booking.station)?.station.turnoverMinutes ?? 0;
			if (before && one.from < before.to + turnoverMinutes * 60) {
				problems[index]?.push({ rule: 2, code: 'lane-taken', by: before.booking.person, turnoverMinutes });
			}
			if (!before || one.to > before.to) before = one;
		}
	}
}

function judgeAway(
	model: EnrollmentModel,
	timed: readonly (TimedBooking | undefined)[],
	problems: BookingProblem[][]
): void {
	const departments = new Map<string, { readonly one: TimedBooking; readonly index: number }[]>();
	timed.forEach((one, index) => {
		const department = one?.person.department ?? null;
		if (!one || department === null || !model.maxAwayByDepartment.has(department)) return;
		const members = departments.get(department) ?? [];
		members.push({ one, index });
		departments.set(department, members);
	});
	for (const [department, members] of departments) {
		const maxAway = model.maxAwayByDepartment.get(department) ?? Infinity;
		const over = spansOverLimit(
			members.map(({ one }) => one.away),
			maxAway
		);
		for (const { one, index } of members) {
			if (!over.some((span) => span.from < one.away.to && one.away.from < span.to)) continue;
			problems[index]?.push({ rule: 6, code: 'away-limit', department, maxAway });
		}
	}
}

/** The spans in which more than `most` of the given (half-open, perhaps empty) spans hold. */
function spansOverLimit(spans: readonly { from: number; to: number }[], most: number): { from: number; to: number }[] {
	const events = spans
		.filter((span) => span.from < span.to)
		.flatMap((span) => [
			{ at: span.from, change: 1 },
			{ at: span.to, change: -1 }
		])
		.sort((a, b) => a.at - b.at || a.change - b.change);
	const over: { from: number; to: number }[] = [];
	let count = 0;
	let since: number | undefined;
	for (const { at, change } of events) {
		count += change;
		if (since === undefined && count > most) since = at;
		else if (since !== undefined && count <= most) {
			if (since < at) over.push({ from: since, to: at });
			since = undefined;
		}
	}
	return over;
}

function judgeFixed(model: EnrollmentModel, bookings: readonly PlannedBooking[], problems: BookingProblem[][]): void {
	const fixed = new Map<string, Booking>();
	for (const booking of model.rollout.enrollment.bookings) {
		if (booking.fixed && !fixed.has(booking.person)) fixed.set(booking.person, booking);
	}
	bookings.forEach((booking, index) => {
		const own = fixed.get(booking.person);
		if (!own) return;
		const stays =
			own.station === booking.station &&
			own.lane === booking.lane &&
			own.start === booking.start &&
			own.minutes === booking.minutes;
		if (!stays) problems[index]?.push({ rule: 7, code: 'fixed-moved', start: own.start, station: own.station });
	});
}
