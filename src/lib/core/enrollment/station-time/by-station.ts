import type { Rollout } from '../../document/schema';
import { groupBy } from '../../kernel/group-by';
import { type ClassEstimate, type Estimate, estimateMean } from './station-time';

/** How the visits of one station went, beside what their capture classes take at all stations. */
export interface StationSeen extends Estimate {
	/** Null for visits of which the station is not known. */
	readonly station: string | null;
	/** Visits whose time is known, and their mean in minutes. */
	readonly visits: number;
	readonly mean: number;
}

/**
 * Time over the estimate of the visitor's class, by station: 1 where a station is as fast as all together, 1.2 where it takes a fifth
 * longer. Shrunk toward 1 like station times toward what was assumed. Stations in the order of the document; those without visits
 * are left out.
 */
export function estimateByStation(
	rollout: Rollout,
	classes: readonly ClassEstimate[],
	confidence: number
): StationSeen[] {
	const { visits, stations, captureClasses, assumptions } = rollout.enrollment;
	const classOf = new Map(rollout.people.map(({ id, captureClass }) => [id, captureClass ?? captureClasses[0]?.id]));
	const estimateOf = new Map(classes.map(({ captureClass, estimate }) => [captureClass, estimate]));
	const timed = visits.flatMap(({ person, station, minutes, outcome }) => {
		const usual = estimateOf.get(classOf.get(person) ?? '') ?? 0;
		return outcome === 'no-show' || minutes === null || usual <= 0
			? []
			: [{ station, minutes, ratio: minutes / usual }];
	});
	const byStation = groupBy(timed, ({ station }) => station);
	return [...stations.map(({ id }) => id), null].flatMap((station) => {
		const own = byStation.get(station) ?? [];
		if (own.length === 0) return [];
		const ratios = own.map(({ ratio }) => ratio);
		const mean = own.reduce((sum, { minutes }) => sum + minutes, 0) / own.length;
		return [{ station, visits: own.length, mean, ...estimateMean(1, assumptions.minutesSpread, ratios, confidence) }];
	});
}
