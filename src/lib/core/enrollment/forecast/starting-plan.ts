import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Rollout } from '../../document/schema';
import { Board } from '../board';
import { fixedBookings } from '../fixed';
import { bookAll } from '../improve';
import { instanceOf } from '../instance';
import { judgeBookings } from '../judge';
import { EnrollmentModel } from '../model';
import { bookingsOf } from '../board-bookings';
import { ProofSpace } from '../proof-space';
import type { PlannedBooking } from '../validity';

/**
 * The plan that a forecast starts from: the valid bookings of the document stay, and whoever has none is booked around them, as a plan
 * begins: as many people as can be. It hangs on the document and the seed, and not on the machine, so it is not improved by the clock.
 */
export function startingPlan(model: EnrollmentModel, seed: number, isCancelled: () => boolean): PlannedBooking[] {
	const { rollout } = model;
	const kept = validTogether(model, rollout.enrollment.bookings);
	const standing = new Set(kept.map(({ person }) => person));
	const isComplete = rollout.people.every(({ id }) => standing.has(id) || model.standings.get(id) !== 'to-book');
	if (isComplete) return kept;
	const around = new EnrollmentModel(withFixed(rollout, kept));
	const board = new Board(instanceOf(around, fixedBookings(around), 'strict'));
	bookAll(board, new ProofSpace(board.instance), xoroshiro128plus(seed | 0), isCancelled);
	return validTogether(model, [...kept, ...bookingsOf(board)]);
}

function withFixed(rollout: Rollout, bookings: readonly PlannedBooking[]): Rollout {
	const asFixed = bookings.map(({ person, station, lane, start, minutes }) => ({
		person,
		station,
		lane,
		start,
		minutes,
		fixed: true,
		toldOn: null,
		toldOf: null
	}));
	return { ...rollout, enrollment: { ...rollout.enrollment, bookings: asFixed } };
}

/** Bookings of the list that break no rule together; of those that collide the earlier in time is kept. */
function validTogether(model: EnrollmentModel, bookings: readonly PlannedBooking[]): PlannedBooking[] {
	let kept = [...bookings];
	for (;;) {
		const judged = judgeBookings(model, kept);
		const next = judged.flatMap(({ booking, problems }) => (problems.length === 0 ? [booking] : []));
		if (next.length === kept.length) return kept;
		kept = next;
	}
}
