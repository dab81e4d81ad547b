import type { Rollout } from '../../document/schema';
import type { Work } from '../../kernel/work';
import { judgeBookings } from '../judge';
import type { EnrollmentModel } from '../model';
import { planEnrollment } from '../plan';
import type { PlannedBooking } from '../validity';

/**
 * The plan that a forecast starts from: the valid bookings of the document stay, and whoever has none is booked around them.
 * The same document and seed give the same plan on every machine.
 */
export function startingPlan(model: EnrollmentModel, seed: number, isCancelled: () => boolean): PlannedBooking[] {
	const { rollout } = model;
	const kept = validTogether(model, rollout.enrollment.bookings);
	const standing = new Set(kept.map(({ person }) => person));
	const isComplete = rollout.people.every(({ id }) => standing.has(id) || model.standings.get(id) !== 'to-book');
	if (isComplete) return kept;
	const asFixed = kept.map(({ person, station, lane, start, minutes }) => ({
		person,
		station,
		lane,
		start,
		minutes,
		fixed: true,
		toldOn: null
	}));
	const around: Rollout = { ...rollout, enrollment: { ...rollout.enrollment, bookings: asFixed } };
	const withoutClock: Work = { report: () => undefined, isCancelled, secondsSpent: () => 0 };
	return [...planEnrollment(around, { seconds: 10, seed }, withoutClock).bookings];
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
