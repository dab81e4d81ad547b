import { type EpochDay, epochDayOf, plusDays, dateOf } from '../../calendar/local-date';
import { type LocalDateTime, wallTimeOf } from '../../calendar/local-date-time';
import { clockText, stretch } from '../../calendar/stretch';
import type { Booking, Rollout, Station } from '../../document/schema';
import { judgeBookings } from '../judge';
import { EnrollmentModel } from '../model';
import { type BookingProblem, type TimedBooking, timedBooking } from '../validity';

/** Why a booking does not stay, or why somebody needs a new one. */
export type Disruption =
	/** Nobody came. */
	| { readonly kind: 'missed' }
	/** The visit must be repeated. */
	| { readonly kind: 'repeat' }
	/** The booking breaks rules now: the station is closed, the person absent, the shift another one. */
	| { readonly kind: 'no-longer-valid'; readonly problems: readonly BookingProblem[] }
	/** Was not booked before. */
	| { readonly kind: 'new' };

/** How things stand at a moment: what is over, what stays as it is, and who needs a booking. */
export interface Remaining {
	/** The document from that moment on: earlier station time is gone. */
	readonly rollout: Rollout;
	/** Valid bookings to come. */
	readonly standing: readonly Booking[];
	/** Bookings that run at that moment, and beyond the next start on the grid: their lanes are taken. */
	readonly running: readonly Booking[];
	/** By person. */
	readonly disruptions: ReadonlyMap<string, Disruption>;
	/** The booking that a person had, for those who are to be told of a change. */
	readonly before: ReadonlyMap<string, Booking>;
	/** Second bookings of people who keep another one to come: they go. */
	readonly repeated: readonly Booking[];
	/** People whose booking is over without a word of what became of it; they are not booked anew. */
	readonly unrecorded: readonly string[];
}

/**
 * Sorts bookings and visits at a moment. Whoever is booked before it has had their visit: `visits` tells how it ended; somebody of whom
 * nothing is recorded is neither booked again nor forgotten. A visit counts for a booking on its date or before.
 */
export function remainingFrom(rollout: Rollout, from: LocalDateTime): Remaining {
	const model = new EnrollmentModel(rollout);
	const wall = wallTimeOf(from);
	const now = model.zone.instantOf(wall);
	const { gridMinutes } = rollout.enrollment;
	const nextStart = now + (Math.ceil(wall.minute / gridMinutes) * gridMinutes - wall.minute) * 60;
	const before = new Map<string, Booking>();
	const toCome: Booking[] = [];
	const running: Booking[] = [];
	const over = new Map<string, Booking>();
	for (const booking of rollout.enrollment.bookings) {
		const timed = timedBooking(model, booking) as TimedBooking;
		if (timed.from >= now) toCome.push(booking);
		else {
			over.set(booking.person, booking);
			const turnover = model.stationsById.get(booking.station)?.station.turnoverMinutes ?? 0;
			// The walk back counts as well: until then one more of the department is away.
			const until = Math.max(timed.to + turnover * 60, timed.away.to + longestWalkOf(rollout));
			if (until > nextStart) running.push(booking);
		}
	}
	const judged = judgeBookings(model, toCome);
	const standing: Booking[] = [];
	const disruptions = new Map<string, Disruption>();
	const repeated: Booking[] = [];
	toCome.forEach((booking, place) => {
		if (judged[place]?.problems.length === 0) standing.push(booking);
	});
	const booked = new Set(standing.map(({ person }) => person));
	toCome.forEach((booking, place) => {
		const problems = judged[place]?.problems ?? [];
		if (problems.length === 0) before.set(booking.person, booking);
		else if (booked.has(booking.person) || disruptions.has(booking.person)) repeated.push(booking);
		else {
			before.set(booking.person, booking);
			disruptions.set(booking.person, { kind: 'no-longer-valid', problems });
		}
	});
	const outcomes = lastOutcomes(rollout);
	const unrecorded: string[] = [];
	for (const { id } of rollout.people) {
		if (booked.has(id) || disruptions.has(id) || model.standings.get(id) !== 'to-book') continue;
		const had = over.get(id);
		const last = outcomes.get(id);
		if (last?.outcome === 'enrolled' || last?.outcome === 'failed') continue;
		const isRecorded = last !== undefined && (had === undefined || last.on >= had.start.slice(0, 10));
		if (had !== undefined && !isRecorded) {
			unrecorded.push(id);
			continue;
		}
		if (had !== undefined) before.set(id, had);
		disruptions.set(id, { kind: last === undefined ? 'new' : last.outcome === 'no-show' ? 'missed' : 'repeat' });
	}
	return {
		rollout: withoutThePast(rollout, from),
		standing,
		// Whose visit ended without a template holds the lane no longer.
		running: running.filter(({ person }) => !disruptions.has(person) && !booked.has(person)),
		disruptions,
		before,
		repeated,
		unrecorded
	};
}

/** Seconds of the longest walk to a station: who starts at a moment left their work so much earlier. */
function longestWalkOf({ enrollment }: Rollout): number {
	return 60 * enrollment.walks.reduce((most, { minutes }) => Math.max(most, minutes), 0);
}

/** The latest visit of each person, of one date the one further down the list. */
function lastOutcomes(rollout: Rollout): ReadonlyMap<string, Rollout['enrollment']['visits'][number]> {
	const last = new Map<string, Rollout['enrollment']['visits'][number]>();
	for (const visit of rollout.enrollment.visits) {
		const known = last.get(visit.person);
		if (!known || known.on <= visit.on) last.set(visit.person, visit);
	}
	return last;
}

/** Stations open from a moment on: stretches before it are gone, one that it falls into begins at it. */
function withoutThePast(rollout: Rollout, from: LocalDateTime): Rollout {
	const { day, minute } = wallTimeOf(from);
	const stations = rollout.enrollment.stations.map((station): Station => ({
		...station,
		open: station.open.flatMap((opening) => {
			const left = leftOf(epochDayOf(opening.date), opening.at, day, minute);
			return left === undefined ? [] : [{ ...opening, ...left }];
		})
	}));
	return { ...rollout, enrollment: { ...rollout.enrollment, stations } };
}

function leftOf(
	opens: EpochDay,
	at: string,
	day: EpochDay,
	minute: number
): { date: Station['open'][number]['date']; at: string } | undefined {
	const { from, to } = stretch(at);
	const now = (day - opens) * 1440 + minute;
	if (now <= from) return { date: dateOf(opens), at };
	if (now >= to) return undefined;
	const days = Math.floor(now / 1440);
	return { date: dateOf(plusDays(opens, days)), at: `${clockText(now - days * 1440)}-${clockText(to - days * 1440)}` };
}
