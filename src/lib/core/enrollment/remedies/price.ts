import type { Costs } from '../../document/schema';

/** What a remedy takes, in what the cost table prices. */
export interface Takes {
	/** Minutes for which one lane is open longer. */
	readonly stationMinutes: number;
	readonly installerDays: number;
	/** Minutes for which one person more is away from the line. */
	readonly awayMinutes: number;
	readonly movedBookings: number;
}

const nothing: Takes = { stationMinutes: 0, installerDays: 0, awayMinutes: 0, movedBookings: 0 };

/** What is named, and nothing else. */
export function taking(some: Partial<Takes>): Takes {
	return { ...nothing, ...some };
}

/** What several take together. */
export function sumOf(all: readonly Takes[]): Takes {
	return all.reduce(
		(sum, one) => ({
			stationMinutes: sum.stationMinutes + one.stationMinutes,
			installerDays: sum.installerDays + one.installerDays,
			awayMinutes: sum.awayMinutes + one.awayMinutes,
			movedBookings: sum.movedBookings + one.movedBookings
		}),
		nothing
	);
}

/** The price by a cost table, to the hundredth. */
export function priceOf(takes: Takes, costs: Costs): number {
	const { stationMinutes, installerDays, awayMinutes, movedBookings } = takes;
	const hours = (stationMinutes * costs.stationHour + awayMinutes * costs.personAwayHour) / 60;
	return Math.round((hours + installerDays * costs.installerDay + movedBookings * costs.movedBooking) * 100) / 100;
}
