import type { Rollout } from '../document/schema';
import { type Work, unwatched } from '../kernel/work';
import { EnrollmentModel } from './model';
import { type EnrollmentPlan, type PlanOptions, planEnrollment } from './plan';
import { type EntryChange, withChanges } from './remedies/entry-change';
import { timedBooking } from './validity';

/** What a plan comes to, for standing beside another. */
export interface PlanFigures {
	readonly booked: number;
	/** People left unbooked although they could take part; those who declined are not counted. */
	readonly unbooked: number;
	readonly sessions: number;
	/** Minutes walked there and back, summed over bookings. */
	readonly walkMinutes: number;
	/** Date of the last booking; null where there is none. */
	readonly lastDate: string | null;
	readonly bounds: EnrollmentPlan['bounds'];
	readonly optimal: boolean;
}

/** The figures of a plan of a rollout. */
export function figuresOf(rollout: Rollout, plan: EnrollmentPlan): PlanFigures {
	const model = new EnrollmentModel(rollout);
	const walks = plan.bookings.map((booking) => (2 * (timedBooking(model, booking)?.walk ?? 0)) / 60);
	return {
		booked: plan.bookings.length,
		unbooked: plan.unbooked.filter(({ reason }) => reason !== 'declined').length,
		sessions: plan.sessions.length,
		walkMinutes: walks.reduce((sum, minutes) => sum + minutes, 0),
		lastDate: plan.bookings.at(-1)?.start.slice(0, 10) ?? null,
		bounds: plan.bounds,
		optimal: plan.optimal
	};
}

/**
 * Plans a rollout as it is and with changes, such as the edits of remedies, side by side, and changes neither. Each plan gets
 * half of the seconds.
 */
export function whatIf(
	rollout: Rollout,
	changes: readonly EntryChange[],
	options: PlanOptions,
	work: Work = unwatched
): { readonly now: PlanFigures; readonly then: PlanFigures } {
	const half = { ...options, seconds: options.seconds / 2 };
	const now = figuresOf(rollout, planEnrollment(rollout, half, work));
	const changed = withChanges(rollout, changes);
	const begin = work.secondsSpent();
	const rest: Work = {
		report: (done, total, note) => work.report(done, total, note),
		isCancelled: () => work.isCancelled(),
		secondsSpent: () => work.secondsSpent() - begin
	};
	return { now, then: figuresOf(changed, planEnrollment(changed, half, rest)) };
}
