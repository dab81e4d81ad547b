import type { LocalDate } from '../calendar/local-date';
import type { Rollout } from '../document/schema';
import { EnrollmentModel } from './model';
import { type PlannedBooking, findStretch } from './validity';

/** How full an open stretch of a station is, all lanes together. */
export interface StationLoad {
	readonly station: string;
	readonly date: LocalDate;
	/** As it is written. */
	readonly at: string;
	readonly lanes: number;
	readonly people: number;
	/** Minutes open, times lanes. */
	readonly openMinutes: number;
	/** Station time and turnover of the bookings; a turnover may reach beyond the stretch. */
	readonly busyMinutes: number;
}

/** The load of every open stretch, empty ones included, station by station in the order of time. */
export function stationLoads(of: EnrollmentModel | Rollout, bookings: readonly PlannedBooking[]): StationLoad[] {
	const model = of instanceof EnrollmentModel ? of : new EnrollmentModel(of);
	const byStretch = new Map<object, PlannedBooking[]>();
	for (const booking of bookings) {
		const stretch = findStretch(model, booking);
		if (stretch) byStretch.set(stretch, [...(byStretch.get(stretch) ?? []), booking]);
	}
	return model.stations.flatMap(({ station, stretches }) =>
		stretches.map((stretch) => {
			const inside = byStretch.get(stretch) ?? [];
			return {
				station: station.id,
				date: stretch.date,
				at: stretch.at,
				lanes: station.lanes,
				people: inside.length,
				openMinutes: (station.lanes * (stretch.to - stretch.from)) / 60,
				busyMinutes: inside.reduce((sum, { minutes }) => sum + minutes + station.turnoverMinutes, 0)
			};
		})
	);
}
