import type { TimetableBooking, TimetableStation } from '$lib/charts/timetable';
import type { Spot } from '$lib/charts/timetable-moves';
import { epochDayOf, localDate } from '$lib/core/calendar/local-date';
import { localDateTimeOf } from '$lib/core/calendar/local-date-time';
import type { Rollout } from '$lib/core/document/schema';
import { type Placement, explainPlacement } from '$lib/core/enrollment/explain-placement';
import { judgeMove } from '$lib/core/enrollment/judge';
import { EnrollmentModel } from '$lib/core/enrollment/model';
import type { PlannedBooking } from '$lib/core/enrollment/validity';
import { problemText } from './problem-text';

/** A booking as the timetable of a date shows it. */
export interface DayBooking extends TimetableBooking {
	/** Its place in the document. */
	readonly place: number;
	readonly department: string | null;
	readonly problems: readonly string[];
}

/** Somebody without a booking who can be put into the timetable. */
export interface Waiting {
	readonly person: string;
	readonly name: string;
	readonly department: string | null;
	readonly minutes: number;
}

/** Everything that the timetable of one date needs, to be drawn and to judge moves by itself. */
export interface DayDesk {
	readonly date: string;
	readonly dates: readonly string[];
	readonly stations: readonly TimetableStation[];
	readonly bookings: readonly DayBooking[];
	readonly waiting: readonly Waiting[];
	/**
	 * The rollout, pared to what can decide about a booking that starts on the date: only people who are booked near it or
	 * wait, without their jobs, mail addresses, languages and records of consent.
	 */
	readonly pared: Rollout;
}

/** Judges moves on one date in the browser, by the very functions that judge them on the server. */
export class DayJudge {
	readonly model: EnrollmentModel;
	readonly #date: string;
	readonly #known = new Map<string, readonly string[]>();

	/** `carried` is a desk of another date from which somebody is brought along, so that this date knows them too. */
	constructor(desk: Pick<DayDesk, 'date' | 'pared'>, carried?: { readonly person: string; readonly pared: Rollout }) {
		this.#date = desk.date;
		this.model = new EnrollmentModel(carried ? withPerson(desk.pared, carried.person, carried.pared) : desk.pared);
	}

	get gridMinutes(): number {
		return this.model.rollout.enrollment.gridMinutes;
	}

	bookingAt(person: string, minutes: number, spot: Spot): PlannedBooking {
		const start = localDateTimeOf({ day: epochDayOf(localDate(this.#date)), minute: spot.start });
		return { person, station: spot.station, lane: spot.lane, start, minutes };
	}

	/** Every rule that a booking would break there, as sentences; empty where it may stand. */
	problemsAt(person: string, minutes: number, spot: Spot): readonly string[] {
		const key = JSON.stringify([person, spot.station, spot.lane, spot.start]);
		let problems = this.#known.get(key);
		if (!problems) {
			const { rollout } = this.model;
			const found = judgeMove(this.model, rollout.enrollment.bookings, this.bookingAt(person, minutes, spot));
			problems = found.map((problem) => problemText(problem, rollout));
			this.#known.set(key, problems);
		}
		return problems;
	}

	explain(person: string, minutes: number, spot: Spot): Placement | undefined {
		return explainPlacement(this.model, this.bookingAt(person, minutes, spot));
	}
}

/** A pared rollout with one more person and what is told of them, taken from that of another date. */
function withPerson(pared: Rollout, person: string, from: Rollout): Rollout {
	if (pared.people.some(({ id }) => id === person)) return pared;
	const own = <T extends { readonly person: string }>(list: readonly T[]) =>
		list.filter((one) => one.person === person);
	const patterns = new Set(pared.shiftPatterns.map(({ id }) => id));
	return {
		...pared,
		people: [...pared.people, ...from.people.filter(({ id }) => id === person)],
		shiftPatterns: [...pared.shiftPatterns, ...from.shiftPatterns.filter(({ id }) => !patterns.has(id))],
		absences: [...pared.absences, ...own(from.absences)],
		privacy: {
			...pared.privacy,
			consents: [...pared.privacy.consents, ...own(from.privacy.consents)],
			templates: [...pared.privacy.templates, ...own(from.privacy.templates)]
		},
		enrollment: {
			...pared.enrollment,
			bookings: [...pared.enrollment.bookings, ...own(from.enrollment.bookings)]
		}
	};
}
