import type { DayBooking, DayDesk, Waiting } from '$lib/components/enrollment/day-desk';
import { type EpochDay, type LocalDate, epochDayOf, localDate, plusDays } from '$lib/core/calendar/local-date';
import type { Booking, Person, Rollout } from '$lib/core/document/schema';
import { consent, privacy } from '$lib/core/document/schema-privacy';
import type { EnrollmentModel } from '$lib/core/enrollment/model';
import { timedBooking } from '$lib/core/enrollment/validity';
import { enrollmentModelOf } from './enrollment-model';
import type { BookingView } from './plan';

/** How many people without a booking are offered beside the timetable; the others are found by the form. */
const mostWaiting = 60;

/** The timetable of a date, with what the browser needs to judge moves exactly as the server does. */
export function dayDesk(
	rollout: Rollout,
	date: string,
	bookings: readonly BookingView[],
	unbooked: readonly { readonly id: string }[],
	dates: readonly string[]
): DayDesk {
	const model = enrollmentModelOf(rollout);
	const own = bookings.filter((booking) => booking.sessionDate === date);
	const waiting = waitingOf(model, unbooked.slice(0, mostWaiting));
	const named = [...waiting.map(({ person }) => person), ...own.map(({ person }) => person)];
	return {
		date,
		dates,
		stations: rollout.enrollment.stations.map(({ id, name, lanes, turnoverMinutes, open }) => ({
			id,
			name: name ?? id,
			lanes,
			turnoverMinutes,
			open: open.filter((one) => one.date === date).map(({ at }) => at)
		})),
		bookings: own.map(({ place, person, name, department, station, lane, start, minutes, isFixed, problems }) => {
			return { place, person, name, department, station, lane, start, minutes, isFixed, problems } satisfies DayBooking;
		}),
		waiting,
		pared: paredFor(model, localDate(date), new Set(named))
	};
}

function waitingOf(model: EnrollmentModel, unbooked: readonly { readonly id: string }[]): Waiting[] {
	return unbooked.flatMap(({ id }) => {
		const person = model.peopleById.get(id);
		const minutes = person && model.minutesOf(person);
		if (!person || minutes === undefined) return [];
		return [{ person: id, name: person.name ?? id, department: person.department, minutes }];
	});
}

/**
 * A rollout pared to what can decide about a booking of any of `movers` that starts on a date or the one after: exactly the
 * bookings that can touch it in a lane or in the time away, and their people. Judged by `judgeMove`, such a booking has the
 * same problems as in the whole rollout.
 */
export function paredFor(model: EnrollmentModel, date: LocalDate, movers: ReadonlySet<string>): Rollout {
	const { rollout } = model;
	const near = bookingsNear(model, epochDayOf(date));
	const kept = new Set([...near.map(({ person }) => person), ...movers]);
	const people = rollout.people.filter(({ id }) => kept.has(id));
	const patterns = new Set(people.map(({ shiftPattern }) => shiftPattern));
	const own = rollout.enrollment.bookings.filter(({ person, fixed }) => fixed && movers.has(person));
	const [first, last] = [plusDays(epochDayOf(date), -2), plusDays(epochDayOf(date), 3)];
	const isNear = (day: EpochDay): boolean => first <= day && day <= last;
	return {
		...emptied(rollout),
		people: people.map(paredPerson),
		shiftPatterns: rollout.shiftPatterns.filter(({ id }) => patterns.has(id)),
		absences: rollout.absences.filter(({ person }) => kept.has(person)),
		enrollment: {
			...rollout.enrollment,
			stations: rollout.enrollment.stations.map((station) => ({
				...station,
				open: station.open.filter((one) => isNear(epochDayOf(one.date)))
			})),
			bookings: [...new Set([...near, ...own])],
			visits: []
		},
		privacy: standingsAlone(model, people)
	};
}

/** Bookings that can be in the way of one that starts on a date or the one after, turnovers and walks counted. */
function bookingsNear(model: EnrollmentModel, day: EpochDay): Booking[] {
	const { enrollment } = model.rollout;
	const most = (numbers: readonly number[]): number => numbers.reduce((a, b) => Math.max(a, b), 0);
	const turnover = 60 * most(enrollment.stations.map(({ turnoverMinutes }) => turnoverMinutes));
	const walk = 60 * most(enrollment.walks.map(({ minutes }) => minutes));
	const length = 60 * most([...enrollment.captureClasses, ...enrollment.bookings].map(({ minutes }) => minutes));
	const from = model.zone.midnightOf(day) - walk - turnover;
	const to = model.zone.midnightOf(plusDays(day, 2)) + length + walk + turnover;
	return enrollment.bookings.filter((booking) => {
		const timed = timedBooking(model, booking);
		return timed !== undefined && timed.away.from <= to && from <= timed.away.to;
	});
}

/** The rollout without the building, access and records, none of which decide about a booking. */
function emptied(rollout: Rollout): Rollout {
	return {
		...rollout,
		areas: [],
		doors: [],
		doorGroups: [],
		controllers: [],
		readers: [],
		schedules: [],
		accessProfiles: [],
		assignments: []
	};
}

function paredPerson(person: Person): Person {
	return { ...person, job: null, email: null, language: null };
}

/** Who cannot be booked, and no more than that: not when or how they decided, nor where a template lies. */
function standingsAlone(model: EnrollmentModel, people: readonly Person[]): Rollout['privacy'] {
	const { from } = model.rollout.horizon;
	const withStanding = (standing: string) => people.filter(({ id }) => model.standings.get(id) === standing);
	return {
		...privacy.parse({}),
		consents: withStanding('declined').map(({ id }) => {
			return consent.parse({ person: id, notice: '-', decision: 'declined', on: from });
		}),
		templates: withStanding('enrolled').map(({ id }) => {
			return { person: id, enrolledOn: from, lastUsedOn: null, unneededSince: null, storedOn: ['-'], erasures: [] };
		})
	};
}
