import type { Booking } from '../document/schema';
import { judgeBookings } from './judge';
import type { EnrollmentModel } from './model';
import { problemsAlone } from './validity';

/** The fixed bookings of a rollout: those that are valid together and stay, and those that break a rule. */
export interface FixedBookings {
	readonly valid: readonly Booking[];
	/** Fixed, yet not valid: never part of a plan, and a person of theirs is not moved elsewhere without being asked. */
	readonly broken: readonly Booking[];
}

/**
 * Sorts the fixed bookings: those that collide with nothing are kept, and of the others, in the order of the list, each that
 * breaks no rule together with those kept before it.
 */
export function fixedBookings(model: EnrollmentModel): FixedBookings {
	const fixed = model.rollout.enrollment.bookings.filter((booking) => booking.fixed);
	const possible = fixed.filter((booking) => problemsAlone(model, booking).length === 0);
	const judged = judgeBookings(model, possible);
	const valid = possible.filter((_, index) => judged[index]?.problems.length === 0);
	const kept = new Set(valid);
	for (const booking of possible) {
		if (kept.has(booking)) continue;
		if (judgeBookings(model, [...valid, booking]).some(({ problems }) => problems.length > 0)) continue;
		valid.push(booking);
		kept.add(booking);
	}
	return {
		valid: fixed.filter((booking) => kept.has(booking)),
		broken: fixed.filter((booking) => !kept.has(booking))
	};
}
