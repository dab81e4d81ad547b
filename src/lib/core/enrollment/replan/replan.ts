import type { LocalDateTime } from '../../calendar/local-date-time';
import type { Booking, Rollout } from '../../document/schema';
import { byCodeUnits } from '../../kernel/compare';
import { type Work, unwatched } from '../../kernel/work';
import { instanceOf } from '../instance';
import { EnrollmentModel } from '../model';
import { isSameAppointment, withTelling } from '../told';
import type { PlannedBooking } from '../validity';
import { type Placed, placeAnew } from './placing';
import { type Disruption, type Remaining, remainingFrom } from './remaining';

/** What changes for a person. */
export interface BookingChange {
	readonly person: string;
	/** The booking that no longer holds; null for somebody who had none. */
	readonly before: PlannedBooking | null;
	/** The new one; null where no room was found. */
	readonly after: PlannedBooking | null;
	/** Why: something happened to the person's own booking, or it was moved to make room for somebody else. */
	readonly why: Disruption | { readonly kind: 'made-room' };
	/** True when the person was told of the booking before and must be told again: of another time or station, or that it is off. */
	readonly mustBeTold: boolean;
}

/** A plan from a moment on, as near as possible to the one that people know. */
export interface Replan {
	/** Every booking from that moment on, those that stay included. */
	readonly bookings: readonly Booking[];
	readonly changes: readonly BookingChange[];
	/** Bookings that stay as they are. */
	readonly kept: number;
	/** Bookings of others that were moved to make room, and those of them whose people must be told anew. */
	readonly moved: number;
	readonly toldAnew: number;
	/** What the moves come to by the site's own price of one. */
	readonly cost: number;
	/** People who need a booking and got none. */
	readonly unbooked: readonly string[];
	/** Those of them who could start nowhere from that moment on, whoever else were moved. */
	readonly impossible: readonly string[];
	/** Second bookings of people who keep another one: they go. */
	readonly repeated: readonly PlannedBooking[];
	/** People whose booking is over without a record of what became of it. */
	readonly unrecorded: readonly string[];
}

/**
 * Plans anew from a moment on with as few changes to bookings as it can. Bookings marked `fixed` never move. First everybody goes into
 * time that is free; who finds none makes others move along a chain, at first only people who were not told of their booking yet
 * (`toldOn`), and only then the others. What was moved without need goes back. At last sets of bookings to move are tried in the order
 * of their upset: where that comes to its end, as for a dozen people, no plan that books as many moves fewer. No booking is moved for
 * the sake of a better plan. Stopped early, it gives the best until then.
 */
export function replan(rollout: Rollout, from: LocalDateTime, work: Work = unwatched): Replan {
	const remaining = remainingFrom(rollout, from);
	return answerOf(rollout, remaining, placeAnew(remaining, work));
}

function answerOf(rollout: Rollout, remaining: Remaining, { byPerson, unbooked }: Placed): Replan {
	const old = new Map(remaining.standing.map((booking) => [booking.person, booking]));
	const changes: BookingChange[] = [];
	const bookings: Booking[] = [];
	let kept = 0;
	for (const [person, booking] of byPerson) {
		const before = old.get(person);
		if (before && isSame(before, booking)) {
			bookings.push(before);
			kept++;
			continue;
		}
		const had = before ?? remaining.before.get(person);
		bookings.push(withTelling(had, { ...plain(booking), fixed: false, toldOn: null, toldOf: null }));
		changes.push({
			person,
			before: had ? plain(had) : null,
			after: plain(booking),
			why: remaining.disruptions.get(person) ?? { kind: 'made-room' },
			mustBeTold: had !== undefined && had.toldOn !== null && !isSameAppointment(had, booking)
		});
	}
	for (const person of unbooked) {
		const had = remaining.before.get(person);
		changes.push({
			person,
			before: had ? plain(had) : null,
			after: null,
			why: remaining.disruptions.get(person) ?? { kind: 'made-room' },
			// Who did not come knows that the appointment is over.
			mustBeTold:
				remaining.disruptions.get(person)?.kind === 'no-longer-valid' &&
				had?.toldOn !== null &&
				had?.toldOn !== undefined
		});
	}
	const moved = changes.filter(({ why }) => why.kind === 'made-room');
	return {
		bookings,
		changes: changes.sort((a, b) => byCodeUnits(a.person, b.person)),
		kept,
		moved: moved.length,
		toldAnew: moved.filter(({ mustBeTold }) => mustBeTold).length,
		cost: moved.length * rollout.enrollment.costs.movedBooking,
		unbooked: [...unbooked].sort(byCodeUnits),
		impossible: impossibleOf(remaining, unbooked),
		repeated: remaining.repeated.map(plain),
		unrecorded: remaining.unrecorded
	};
}

function impossibleOf({ rollout }: Remaining, unbooked: readonly string[]): string[] {
	if (unbooked.length === 0) return [];
	const model = new EnrollmentModel({ ...rollout, enrollment: { ...rollout.enrollment, bookings: [] } });
	const { people, kinds, kindOf } = instanceOf(model, { valid: [], broken: [] }, 'strict');
	const asked = new Set(unbooked);
	return people
		.flatMap(({ id }, place) => {
			const windows = kinds[kindOf[place] as number]?.windows ?? [];
			return asked.has(id) && windows.every((window) => window === null) ? [id] : [];
		})
		.sort(byCodeUnits);
}

function plain({ person, station, lane, start, minutes }: PlannedBooking): PlannedBooking {
	return { person, station, lane, start, minutes };
}

function isSame(a: PlannedBooking, b: PlannedBooking): boolean {
	return a.station === b.station && a.lane === b.lane && a.start === b.start && a.minutes === b.minutes;
}
