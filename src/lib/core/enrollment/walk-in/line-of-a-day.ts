import { serviceAllowance } from './queue';

/**
 * A line through a day whose arrivals change: how many are likely to be there, minute by minute, beginning empty.
 *
 * The number of people present is a birth and death process (Erlang's); its distribution is carried forward exactly by
 * uniformization (Jensen 1953): over a piece of time with rate q, the state after it is the mixture of the states after k steps of a
 * chain with Poisson(q) weights. So an hour in which more arrive than can be served needs no special case, and what it leaves
 * behind is carried into the next. Invariant: the chances sum to 1. Cost: steps times the most people present.
 * Service that is not exponential is allowed for in the waiting, as in `steadyLine`.
 */

/** Arrivals per hour over a piece of the day, in hours from its begin. */
export interface ArrivalPiece {
	readonly hours: number;
	readonly arrivalsPerHour: number;
	readonly lanes: number;
}

/** What a piece of the day comes to. */
export interface LinePiece {
	/** Mean number waiting over the piece, and at its end; those at a lane not counted. */
	readonly queue: number;
	readonly queueAtEnd: number;
	/** Mean wait in hours of those who arrive in the piece. */
	readonly wait: number;
	/** Share of those who arrive in it that wait longer than the hours asked about. */
	readonly longer: number;
	/** The wait in hours that the asked share of those who arrive in it does not exceed. */
	readonly waitAtShare: number;
	/** Mean share of lanes that are busy. */
	readonly use: number;
}

/** Points in a piece at which the line is looked at. */
const looksPerPiece = 12;

/**
 * Follows a line through pieces of a day. `within` is the wait in hours that is asked about, `share` the one whose wait is. Lanes may change from piece to
 * piece; 0 lanes serve nobody. Refuses (RangeError) negative rates and lanes that are no whole number.
 */
export function lineOfDay(
	pieces: readonly ArrivalPiece[],
	service: { readonly hours: number; readonly variation: number },
	within: number,
	share = 0.9
): LinePiece[] {
	for (const { arrivalsPerHour, lanes, hours } of pieces) {
		if (!(arrivalsPerHour >= 0) || !(hours > 0)) throw new RangeError('arrivals and hours must not be negative');
		if (!Number.isInteger(lanes) || lanes < 0) throw new RangeError('lanes must be a whole number from 0');
	}
	const expected = pieces.reduce((sum, { arrivalsPerHour, hours }) => sum + arrivalsPerHour * hours, 0);
	// Nine standard deviations above everybody expected: the chance of more is below 1e-18.
	let chances = new Float64Array(Math.ceil(expected + 9 * Math.sqrt(expected) + 20));
	chances[0] = 1;
	return pieces.map((piece) => {
		const looks: Look[] = [];
		const found = new Float64Array(chances.length);
		for (let look = 0; look < looksPerPiece; look++) {
			chances = carried(chances, piece, service.hours, piece.hours / looksPerPiece / 2);
			looks.push(lookAt(chances, piece, service, within));
			chances.forEach((chance, present) => (found[present] = (found[present] as number) + chance / looksPerPiece));
			chances = carried(chances, piece, service.hours, piece.hours / looksPerPiece / 2);
		}
		const mean = (of: (look: Look) => number): number => looks.reduce((sum, look) => sum + of(look), 0) / looks.length;
		return {
			queue: mean(({ queue }) => queue),
			queueAtEnd: lookAt(chances, piece, service, within).queue,
			wait: mean(({ wait }) => wait),
			longer: mean(({ longer }) => longer),
			waitAtShare: waitAtShare(found, piece, service, share),
			use: mean(({ use }) => use)
		};
	});
}

/** The chances after some more hours. */
function carried(
	chances: Float64Array,
	piece: ArrivalPiece,
	serviceHours: number,
	hours: number
): Float64Array<ArrayBuffer> {
	const { arrivalsPerHour, lanes } = piece;
	const rate = arrivalsPerHour + lanes / serviceHours;
	const result = new Float64Array(chances.length);
	if (rate === 0) return Float64Array.from(chances);
	// Pieces of at most 30 steps on average keep the Poisson weights far from underflow.
	const parts = Math.max(1, Math.ceil((rate * hours) / 30));
	let now = Float64Array.from(chances);
	for (let part = 0; part < parts; part++) {
		const mean = (rate * hours) / parts;
		let weight = Math.exp(-mean);
		let left = 1 - weight;
		let step = now;
		result.fill(0);
		for (let index = 0; index < now.length; index++) result[index] = weight * (step[index] as number);
		for (let count = 1; left > 1e-13 && count < 1000; count++) {
			step = stepped(step, arrivalsPerHour, lanes, serviceHours, rate);
			weight *= mean / count;
			left -= weight;
			for (let index = 0; index < step.length; index++) {
				result[index] = (result[index] as number) + weight * (step[index] as number);
			}
		}
		now = Float64Array.from(result);
	}
	return now;
}

/** One step of the uniformized chain. The last state holds whoever would come on top of it. */
function stepped(
	chances: Float64Array,
	arrivalsPerHour: number,
	lanes: number,
	serviceHours: number,
	rate: number
): Float64Array<ArrayBuffer> {
	const next = new Float64Array(chances.length);
	const last = chances.length - 1;
	for (let present = 0; present <= last; present++) {
		const chance = chances[present] as number;
		if (chance === 0) continue;
		const up = arrivalsPerHour / rate;
		const down = Math.min(present, lanes) / serviceHours / rate;
		const above = Math.min(present + 1, last);
		next[above] = (next[above] as number) + chance * up;
		if (down > 0) next[present - 1] = (next[present - 1] as number) + chance * down;
		next[present] = (next[present] as number) + chance * (1 - up - down);
	}
	return next;
}

interface Look {
	readonly queue: number;
	readonly wait: number;
	readonly longer: number;
	readonly use: number;
}

/** What somebody who arrives now finds: with k before them at busy lanes, the wait is that of k - lanes + 1 services to end. */
function lookAt(
	chances: Float64Array,
	{ lanes }: ArrivalPiece,
	service: { readonly hours: number; readonly variation: number },
	within: number
): Look {
	let [queue, wait, longer, busy] = [0, 0, 0, 0];
	const allowance = serviceAllowance(service.variation);
	const ends = lanes / (service.hours * allowance);
	// The chance that fewer than so many services end within the time: a Poisson distribution, summed as it is needed.
	// Kept as a logarithm, since a long time makes the first terms smaller than any number.
	let term = -ends * within;
	let fewer = 0;
	for (let present = 0; present < chances.length; present++) {
		const chance = chances[present] as number;
		busy += chance * Math.min(present, lanes);
		if (present < lanes) continue;
		const before = present - lanes;
		queue += chance * before;
		if (lanes === 0) {
			longer += chance;
			wait = Infinity;
			continue;
		}
		wait += (chance * (before + 1)) / ends;
		fewer += Math.exp(term);
		longer += chance * Math.min(1, fewer);
		term += Math.log((ends * within) / (before + 1));
	}
	return { queue: queue * allowance, wait, longer, use: lanes === 0 ? 0 : busy / lanes };
}

/** The wait that a share of those who arrive does not exceed, found by halving to a second; infinite where nobody is served. */
function waitAtShare(
	chances: Float64Array,
	piece: ArrivalPiece,
	service: { readonly hours: number; readonly variation: number },
	share: number
): number {
	const isExceeded = (hours: number): boolean => lookAt(chances, piece, service, hours).longer > 1 - share + 1e-12;
	if (!isExceeded(0)) return 0;
	if (piece.lanes === 0 || service.hours === 0 || share >= 1) return Infinity;
	let [low, high] = [0, service.hours];
	while (isExceeded(high)) [low, high] = [high, 2 * high];
	while (high - low > 1 / 36_000) {
		const middle = (low + high) / 2;
		if (isExceeded(middle)) low = middle;
		else high = middle;
	}
	return high;
}
