import type { LocalDate } from '../calendar/local-date';
import type { Rollout } from '../document/schema';
import { byCodeUnits } from '../kernel/compare';
import { EnrollmentModel, type OpenStretch } from './model';
import { type PlannedBooking, findStretch } from './validity';

/** One open stretch of one lane that holds at least one booking. */
export interface Session {
	readonly station: string;
	readonly lane: number;
	/** The date on which the stretch begins, and the stretch as it is written. */
	readonly date: LocalDate;
	readonly at: string;
	/** Number of bookings. */
	readonly people: number;
	/** Their station time in minutes, turnover not counted. */
	readonly busyMinutes: number;
}

/** The sessions of bookings, by time, station and lane. A booking outside of every open stretch belongs to none. */
export function sessionsOf(of: EnrollmentModel | Rollout, bookings: readonly PlannedBooking[]): Session[] {
	const model = of instanceof EnrollmentModel ? of : new EnrollmentModel(of);
	const sessions = new Map<
		string,
		{ stretch: OpenStretch; station: string; lane: number; people: number; minutes: number }
	>();
	for (const booking of bookings) {
		const stretch = findStretch(model, booking);
		if (!stretch) continue;
		const key = `${stretch.date} ${stretch.at} ${booking.lane} ${booking.station}`;
		const session = sessions.get(key) ?? {
			stretch,
			station: booking.station,
			lane: booking.lane,
			people: 0,
			minutes: 0
		};
		session.people++;
		session.minutes += booking.minutes;
		sessions.set(key, session);
	}
	return [...sessions.values()]
		.sort(
			(a, b) =>
				a.stretch.from - b.stretch.from ||
				a.stretch.to - b.stretch.to ||
				byCodeUnits(a.station, b.station) ||
				a.lane - b.lane
		)
		.map(({ stretch, station, lane, people, minutes }) => ({
			station,
			lane,
			date: stretch.date,
			at: stretch.at,
			people,
			busyMinutes: minutes
		}));
}
