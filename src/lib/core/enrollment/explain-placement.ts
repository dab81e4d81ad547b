import type { Rollout } from '../document/schema';
import { judgeMove } from './judge';
import { EnrollmentModel, type OpenStretch } from './model';
import { type BookingProblem, type PlannedBooking, findStretch, timedBooking } from './validity';

/** Why a person is where they are: what a booking takes, what bounds it, and what is wrong with it. */
export interface Placement {
	readonly booking: PlannedBooking;
	/** The open stretch in which it lies; undefined when it lies in none. */
	readonly stretch: OpenStretch | undefined;
	/** One-way walk in minutes. */
	readonly walkMinutes: number;
	/** From leaving the workplace to being back, as RFC 3339 text. */
	readonly away: { readonly from: string; readonly to: string };
	/** The shift, or the time of employment and presence, in which all of it lies; null when it lies in none. */
	readonly free: { readonly from: string; readonly to: string } | null;
	/** Last date by which the person must be enrolled; null for no limit. */
	readonly enrollBy: string | null;
	/** Broken rules, the other bookings taken into account; empty when it is valid. */
	readonly problems: readonly BookingProblem[];
}

/**
 * Explains a booking among others (those of the document where left out); undefined when its person or its station is
 * unknown. A free span without limit is told up to the dates asked about, a few days around the booking.
 */
export function explainPlacement(
	of: EnrollmentModel | Rollout,
	booking: PlannedBooking,
	others?: readonly PlannedBooking[]
): Placement | undefined {
	const model = of instanceof EnrollmentModel ? of : new EnrollmentModel(of);
	const timed = timedBooking(model, booking);
	if (!timed) return undefined;
	const { zone } = model;
	const textOf = (at: number): string => zone.textOf(at as Parameters<typeof zone.textOf>[0]);
	const day = zone.dayAt(timed.from as Parameters<typeof zone.dayAt>[0]);
	const free = model
		.freeSpansOf(timed.person, day, day)
		.find((span) => span.from <= timed.away.from && timed.away.to <= span.to);
	return {
		booking,
		stretch: findStretch(model, booking),
		walkMinutes: timed.walk / 60,
		away: { from: textOf(timed.away.from), to: textOf(timed.away.to) },
		free: free ? { from: textOf(free.from), to: textOf(free.to) } : null,
		enrollBy: model.enrollByOf(timed.person),
		problems: judgeMove(model, others ?? model.rollout.enrollment.bookings, booking)
	};
}
