/**
 * Waiting lines in the long run. Arrivals are by chance (Poisson); `load` is arrivals per hour times hours of service, in
 * erlangs; service times need not be exponential. Rates are per hour, times in hours.
 */

/** What a line comes to in the long run. */
export interface SteadyLine {
	/** Share of the time that a lane is busy. */
	readonly use: number;
	/** Chance that somebody who arrives has to wait. */
	readonly waitChance: number;
	/** Mean number of people waiting, those at a lane not counted. */
	readonly queue: number;
	/** Mean wait in hours, over all who arrive. */
	readonly wait: number;
}

/**
 * The chance that all lanes are busy (Erlang C), by the recursion for Erlang B, which does not overflow. Refuses (RangeError) a
 * negative load, less than one lane, and a load that the lanes cannot carry.
 * @source A. K. Erlang (1917); facts V-Q-01 to V-Q-05 and the table of section 3.1
 */
export function erlangC(lanes: number, load: number): number {
	if (!Number.isInteger(lanes) || lanes < 1) throw new RangeError('lanes must be a whole number from 1');
	if (!(load >= 0)) throw new RangeError('the load must not be negative');
	if (load >= lanes) throw new RangeError('the lanes cannot carry this load: the line would grow without end');
	let blocked = 1;
	for (let lane = 1; lane <= lanes; lane++) blocked = (load * blocked) / (lane + load * blocked);
	const use = load / lanes;
	return blocked / (1 - use + use * blocked);
}

/**
 * By how much waiting differs from that with exponential service: (1 + v²) / 2, v the coefficient of variation. Exact for one
 * lane (Pollaczek and Khinchine), an approximation for several: that of Lee and Longton (1959), which is that of Allen and
 * Cunneen, (ca² + cs²) / 2, for arrivals by chance (ca = 1).
 */
export function serviceAllowance(variation: number): number {
	return (1 + variation * variation) / 2;
}

/**
 * A line with `lanes` alike, in the long run. Refused (RangeError) where `erlangC` is.
 * @source Erlang C; Pollaczek and Khinchine for one lane (facts V-Q-06, V-Q-07); Allen and Cunneen for more
 */
export function steadyLine(terms: {
	readonly arrivalsPerHour: number;
	readonly lanes: number;
	readonly serviceHours: number;
	readonly variation: number;
}): SteadyLine {
	const { arrivalsPerHour, lanes, serviceHours, variation } = terms;
	const load = arrivalsPerHour * serviceHours;
	const waitChance = erlangC(lanes, load);
	const queue = ((waitChance * load) / (lanes - load)) * serviceAllowance(variation);
	return { use: load / lanes, waitChance, queue, wait: arrivalsPerHour === 0 ? 0 : queue / arrivalsPerHour };
}

/**
 * The chance of waiting longer than so many hours: exact for exponential service; otherwise the waits of those who wait are taken as
 * exponential with the mean that `steadyLine` has, common practice, no source.
 */
export function longerThan(line: SteadyLine, hours: number): number {
	if (line.waitChance === 0 || line.wait === 0) return 0;
	return line.waitChance * Math.exp((-hours * line.waitChance) / line.wait);
}

/** The fewest lanes with which at least a share of waits stay under so many hours, at most `most`; undefined where more are needed. */
export function lanesFor(
	terms: { readonly arrivalsPerHour: number; readonly serviceHours: number; readonly variation: number },
	goal: { readonly hours: number; readonly share: number },
	most = 1000
): number | undefined {
	const load = terms.arrivalsPerHour * terms.serviceHours;
	for (let lanes = Math.floor(load) + 1; lanes <= most; lanes++) {
		if (1 - longerThan(steadyLine({ ...terms, lanes }), goal.hours) >= goal.share - 1e-12) return lanes;
	}
	return undefined;
}
