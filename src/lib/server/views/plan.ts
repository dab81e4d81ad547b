import { unbookedWords } from '$lib/core/answers/plan';
import { type PlacementFact, placementFacts } from '$lib/components/enrollment/placement-words';
import { problemText } from '$lib/components/enrollment/problem-text';
import { dateOf, epochDayOf } from '$lib/core/calendar/local-date';
import { wallTimeOf } from '$lib/core/calendar/local-date-time';
import { nameOf, personName } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import { explainPlacement } from '$lib/core/enrollment/explain-placement';
import { judgeBookings } from '$lib/core/enrollment/judge';
import { type Session, sessionsOf } from '$lib/core/enrollment/sessions';
import type { EnrollmentPlan } from '$lib/core/enrollment/plan';
import { stationLoads } from '$lib/core/enrollment/station-load';
import { findStretch } from '$lib/core/enrollment/validity';
import { enrollmentModelOf } from './enrollment-model';
import { shortfallViews, togetherView } from './shortfalls';

/** A booking as the timetable and the list show it. */
export interface BookingView {
	readonly place: number;
	readonly person: string;
	readonly name: string;
	readonly department: string | null;
	readonly station: string;
	readonly lane: number;
	readonly date: string;
	/** The date of the stretch in which it lies, which may have begun before midnight. */
	readonly sessionDate: string;
	readonly startText: string;
	/** Minutes after the midnight with which the session's date begins. */
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
	const model = enrollmentModelOf(rollout);
	const judged = judgeBookings(model, bookings);
	const departments = new Map(rollout.people.map(({ id, department }) => [id, department]));
	const views = bookings.map((booking, place) => {
		const { day, minute } = wallTimeOf(booking.start);
		const sessionDate = findStretch(model, booking)?.date ?? dateOf(day);
		return {
			place,
			person: booking.person,
			name: nameOf(rollout.people, booking.person),
			department: departments.get(booking.person) ?? null,
			station: booking.station,
			lane: booking.lane,
			date: dateOf(day),
			sessionDate,
			startText: booking.start.slice(11),
			start: minute + (day - epochDayOf(sessionDate)) * 1440,
			minutes: booking.minutes,
			isFixed: booking.fixed,
			problems: (judged[place]?.problems ?? []).map((problem) => problemText(problem, rollout))
		};
	});
	const { standings } = model;
	const booked = new Set(bookings.map(({ person }) => person));
	const unbooked = rollout.people
		.filter(({ id }) => standings.get(id) === 'to-book' && !booked.has(id))
		.map(({ id, name, department }) => ({ id, name: name ?? id, department }));
	const count = (standing: string) => [...standings.values()].filter((one) => one === standing).length;
	return {
		bookings: views,
		sessions: sessionsOf(model, bookings),
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

/** Why a booking of the document stands where it does, fact by fact. */
export function placementView(rollout: Rollout, { place }: Pick<BookingView, 'place'>): PlacementFact[] | null {
	const booking = rollout.enrollment.bookings[place];
	const placement = booking && explainPlacement(enrollmentModelOf(rollout), booking);
	return placement ? placementFacts(placement, rollout) : null;
}

/** How full each stretch is, its lanes together, in the order of time. */
export function loadsView(rollout: Rollout) {
	const loads = stationLoads(enrollmentModelOf(rollout), rollout.enrollment.bookings);
	return loads
		.map(({ station, date, at, lanes, people, openMinutes, busyMinutes }) => ({
			key: `${date} ${at} ${station}`,
			date,
			at,
			name: nameOf(rollout.enrollment.stations, station),
			lanes,
			people,
			openMinutes,
			busyMinutes,
			// The last turnover may reach beyond the stretch.
			share: openMinutes === 0 ? 0 : Math.min(1, busyMinutes / openMinutes)
		}))
		.sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0));
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
		shortfalls: shortfallViews(plan.shortfalls, rollout),
		together: (plan.together && togetherView(plan.together, rollout)) ?? null
	};
}

/** Dates on which some station is open or somebody is booked, sorted. */
export function sessionDates(rollout: Rollout): string[] {
	const open = rollout.enrollment.stations.flatMap((station) => station.open.map(({ date }) => date as string));
	const booked = rollout.enrollment.bookings.map(({ start }) => start.slice(0, 10));
	return [...new Set([...open, ...booked])].sort();
}
