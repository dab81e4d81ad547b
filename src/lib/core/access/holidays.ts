import { type EpochDay, epochDayOf } from '../calendar/local-date';
import type { Holiday, Rollout } from '../document/schema';

/** Holidays by date; of a date that is listed twice the first entry counts. */
export function holidaysByDay(rollout: Rollout): ReadonlyMap<EpochDay, Holiday> {
	const byDay = new Map<EpochDay, Holiday>();
	for (const holiday of rollout.holidays.days) {
		const day = epochDayOf(holiday.date);
		if (!byDay.has(day)) byDay.set(day, holiday);
	}
	return byDay;
}
