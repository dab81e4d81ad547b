import type { Rollout } from '../document/schema';
import { type Work, unwatched } from '../kernel/work';
import { EnrollmentModel } from './model';
import { type EnrollmentPlan, type PlanOptions, type UnbookedReason, planEnrollment } from './plan';
import { type EntryChange, withChanges } from './remedies/entry-change';
import { type Takes, priceOf, sumOf, taking } from './remedies/price';
import { takenOnce } from './remedies/taken-once';
import { timedBooking } from './validity';

/** What a plan comes to, for standing beside another. */
export interface PlanFigures {
	readonly booked: number;
	/** People left unbooked although they could take part; those who declined are not counted. */
	readonly unbooked: number;
	/** How many are not booked for each reason. */
	readonly reasons: Readonly<Partial<Record<UnbookedReason, number>>>;
	readonly sessions: number;
	/** Minutes walked there and back, summed over bookings. */
	readonly walkMinutes: number;
	/** Date of the last booking; null where there is none. */
	readonly lastDate: string | null;
	/** What sessions and time away from the line cost by the cost table, and what the changes take. */
	readonly cost: number;
	readonly bounds: EnrollmentPlan['bounds'];
	readonly optimal: boolean;
}

/** The figures of a plan of a rollout; `once` is what the changes that led to the rollout take. */
export function figuresOf(rollout: Rollout, plan: EnrollmentPlan, once: Takes = taking({})): PlanFigures {
	const model = new EnrollmentModel(rollout);
	const walks = plan.bookings.map((booking) => (2 * (timedBooking(model, booking)?.walk ?? 0)) / 60);
	const walkMinutes = sumOfAll(walks);
	const running = taking({
		stationMinutes: sumOfAll(plan.sessions.map((session) => model.minutesOpen(session))),
		awayMinutes: walkMinutes + sumOfAll(plan.bookings.map(({ minutes }) => minutes))
	});
	const reasons: Partial<Record<UnbookedReason, number>> = {};
	for (const { reason } of plan.unbooked) reasons[reason] = (reasons[reason] ?? 0) + 1;
	return {
		booked: plan.bookings.length,
		unbooked: plan.unbooked.filter(({ reason }) => reason !== 'declined').length,
		reasons,
		sessions: plan.sessions.length,
		walkMinutes,
		lastDate: plan.bookings.at(-1)?.start.slice(0, 10) ?? null,
		cost: priceOf(sumOf([running, once]), rollout.enrollment.costs),
		bounds: plan.bounds,
		optimal: plan.optimal
	};
}

function sumOfAll(all: readonly number[]): number {
	return all.reduce((sum, one) => sum + one, 0);
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
	return { now, then: figuresOf(changed, planEnrollment(changed, half, rest), takenOnce(rollout, changed)) };
}
