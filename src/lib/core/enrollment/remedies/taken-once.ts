import { epochDayOf } from '../../calendar/local-date';
import type { Rollout } from '../../document/schema';
import { type Takes, taking } from './price';

/**
 * What changes take by themselves, whatever is planned after them: a day of the installer for each lane and each need that a station
 * did not have before and for each day that a due date is later, and the fixed bookings that may be moved.
 */
export function takenOnce(before: Rollout, after: Rollout): Takes {
	const { stations, waves, bookings } = before.enrollment;
	let installerDays = 0;
	for (const { id, lanes, serves } of after.enrollment.stations) {
		const own = stations.find((one) => one.id === id);
		if (!own) continue;
		installerDays += Math.max(0, lanes - own.lanes) + serves.filter((need) => !own.serves.includes(need)).length;
	}
	for (const { id, enrollBy } of after.enrollment.waves) {
		const due = waves.find((one) => one.id === id)?.enrollBy;
		if (due && enrollBy) installerDays += Math.max(0, epochDayOf(enrollBy) - epochDayOf(due));
	}
	const freed = bookings.filter(({ fixed }, place) => fixed && after.enrollment.bookings[place]?.fixed === false);
	return taking({ installerDays, movedBookings: freed.length });
}
