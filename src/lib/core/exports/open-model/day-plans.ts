import { type ReadySchedule, dayRuleOf } from '../../access/schedule-days';
import { type EpochDay, type Weekday, plusDays, weekdayOf, weekdays } from '../../calendar/local-date';
import { spanSetOf } from '../../calendar/spans';
import type { Stretch } from '../../calendar/stretch';
import type { Holiday } from '../../document/schema';

/** Minutes of one date, 0 to 1440, as a span set: so that the same minutes are the same list. */
export type DayPlan = readonly { readonly from: number; readonly to: number }[];

export type WeekPlan = Readonly<Record<Weekday, DayPlan>>;

/** What begins on a date, as far as its midnight. */
export function ownPart(stretches: readonly Stretch[]): DayPlan {
	return spanSetOf(stretches.map(({ from, to }) => ({ from, to: Math.min(to, 1440) })));
}

/** What runs on into the next date. */
export function carriedPart(stretches: readonly Stretch[]): DayPlan {
	return spanSetOf(stretches.flatMap(({ to }) => (to > 1440 ? [{ from: 0, to: to - 1440 }] : [])));
}

/** The week: what begins on each weekday, and what the weekday before carries into it. */
export function weekParts({ week }: ReadySchedule): { readonly own: WeekPlan; readonly carried: WeekPlan } {
	const plan = (of: (day: Weekday, before: Weekday) => DayPlan) =>
		Object.fromEntries(weekdays.map((day, place) => [day, of(day, weekdays[(place + 6) % 7] as Weekday)])) as Record<
			Weekday,
			DayPlan
		>;
	return {
		own: plan((day) => ownPart(week[day])),
		carried: plan((_, before) => carriedPart(week[before]))
	};
}

/** What a schedule is to do on a date by the clock on the wall, whatever the clock does. */
export function planOf(schedule: ReadySchedule, day: EpochDay, holidays: ReadonlyMap<EpochDay, Holiday>): DayPlan {
	const { rule, stretches } = dayRuleOf(schedule, day, holidays);
	const before = rule === 'week' ? dayRuleOf(schedule, plusDays(day, -1), holidays).stretches : [];
	return spanSetOf([...ownPart(stretches), ...carriedPart(before)]);
}

/** What the week alone would do on a date, inside the limits of the schedule. */
export function regularPlanOf(schedule: ReadySchedule, day: EpochDay, isLimited: boolean): DayPlan {
	const { own, carried } = weekParts(schedule);
	const weekday = weekdayOf(day);
	if (!isLimited) return spanSetOf([...own[weekday], ...carried[weekday]]);
	const isIn = day >= schedule.from && day <= schedule.until;
	const isCarriedInto = isIn && day > schedule.from;
	return spanSetOf([...(isIn ? own[weekday] : []), ...(isCarriedInto ? carried[weekday] : [])]);
}

export function keyOf(plan: DayPlan): string {
	return plan.map(({ from, to }) => `${from}-${to}`).join();
}
