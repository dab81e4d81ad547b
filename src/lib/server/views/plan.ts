import { shortfallSentence, unbookedWords } from '$lib/core/answers/plan';
import { wallTimeOf } from '$lib/core/calendar/local-date-time';
import { dateOf } from '$lib/core/calendar/local-date';
import { nameOf, personName } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import { judgeBookings } from '$lib/core/enrollment/judge';
import { type Session, sessionsOf } from '$lib/core/enrollment/sessions';
import { standingByPerson } from '$lib/core/enrollment/standing';
import type { EnrollmentPlan } from '$lib/core/enrollment/plan';
import { problemText } from './problem-text';

/** A booking as the timetable and the list show it. */
export interface BookingView {
	readonly place: number;
	readonly person: string;
	readonly name: string;
	readonly department: string | null;
	readonly station: string;
	readonly lane: number;
	readonly date: string;
	readonly startText: string;
	/** Minutes after midnight. */
	readonly start: number;
	readonly minutes: number;
	readonly isFixed: boolean;
	readonly problems: readonly string[];
}

/** How the bookings of the document stand: each judged by all rules, who has none, the sessions they make. */
export function bookingsView(rollout: Rollout): {
	readonly bookings: readonly BookingView[];
	readonly sessions: readonly Session[];
	readonly unbooked: readonly { readonly id: string; readonly name: string; readonly department: string | null }[];
	readonly counts: Readonly<Record<'people' | 'enrolled' | 'declined' | 'booked' | 'unbooked' | 'wrong', number>>;
} {
	const { bookings } = rollout.enrollment;
	const judged = judgeBookings(rollout, bookings);
	const departments = new Map(rollout.people.map(({ id, department }) => [id, department]));
	const views = bookings.map((booking, place) => {
		const { day, minute } = wallTimeOf(booking.start);
		return {
			place,
			person: booking.person,
			name: nameOf(rollout.people, booking.person),
			department: departments.get(booking.person) ?? null,
			station: booking.station,
			lane: booking.lane,
			date: dateOf(day),
			startText: booking.start.slice(11),
			start: minute,
			minutes: booking.minutes,
			isFixed: booking.fixed,
			problems: (judged[place]?.problems ?? []).map((problem) => problemText(problem, rollout))
		};
	});
	const standings = standingByPerson(rollout);
	const booked = new Set(bookings.map(({ person }) => person));
	const unbooked = rollout.people
		.filter(({ id }) => standings.get(id) === 'to-book' && !booked.has(id))
		.map(({ id, name, department }) => ({ id, name: name ?? id, department }));
	const count = (standing: string) => [...standings.values()].filter((one) => one === standing).length;
	return {
		bookings: views,
		sessions: sessionsOf(rollout, bookings),
		unbooked,
		counts: {
			people: rollout.people.length,
			enrolled: count('enrolled'),
			declined: count('declined'),
			booked: booked.size,
			unbooked: unbooked.length,
			wrong: views.filter(({ problems }) => problems.length > 0).length
		}
	};
}

/** A proposed plan as it is read before it is adopted. */
export function proposalView(rollout: Rollout, plan: EnrollmentPlan) {
	return {
		booked: plan.bookings.length,
		sessions: plan.sessions.map((session) => ({
			...session,
			name: nameOf(rollout.enrollment.stations, session.station)
		})),
		bounds: plan.bounds,
		isOptimal: plan.optimal,
		unbooked: plan.unbooked.map(({ person, reason }) => ({
			person,
			name: personName(rollout, person),
			reason,
			words: unbookedWords[reason]
		})),
		shortfalls: plan.shortfalls.map((shortfall) => ({
			kind: shortfall.kind,
			sentence: shortfallSentence(shortfall, rollout),
			stretches: shortfall.stretches.map(({ station, lane, from, to }) => ({
				name: nameOf(rollout.enrollment.stations, station),
				lane,
				from,
				to
			}))
		}))
	};
}

/** Dates on which some station is open or somebody is booked, sorted. */
export function sessionDates(rollout: Rollout): string[] {
	const open = rollout.enrollment.stations.flatMap((station) => station.open.map(({ date }) => date as string));
	const booked = rollout.enrollment.bookings.map(({ start }) => start.slice(0, 10));
	return [...new Set([...open, ...booked])].sort();
}
