import type { Rollout, Stages } from '../../document/schema';
import { groupBy } from '../../kernel/group-by';
import { betaQuantile, studentQuantile } from '../../kernel/beta';

/**
 * What visits that are over teach about those to come. Every estimate begins at what the site assumed and moves toward what was
 * seen, by how much was seen: station times by the normal model with a normal and inverse-gamma prior, shares by the beta
 * distribution (the conjugate models of any textbook on Bayesian statistics; Gelman et al., Bayesian Data Analysis, 2 and 3).
 */

/** As many visits as what was assumed counts for. Our own choice. */
export const assumedCountsFor = { times: 5, shares: 20 };

/** A mean or a share, and where it lies with the asked-for confidence. */
export interface Estimate {
	readonly estimate: number;
	readonly low: number;
	readonly high: number;
}

export interface ClassEstimate extends Estimate {
	readonly captureClass: string;
	/** What plans go by now, in minutes. */
	readonly planned: number;
	/** Sum of the stages; null where none are given. */
	readonly stages: number | null;
	/** Visits whose time is known. */
	readonly visits: number;
	/** Mean of those; null where there is none. */
	readonly mean: number | null;
	/** Visits that lie so far from the others that they should be looked at, as places in the document; they are counted. */
	readonly doubtful: readonly number[];
	/** The estimate without the doubtful visits; null where there is none of them. */
	readonly withoutDoubtful: number | null;
	/** What it began at: the sum of the stages, or what was planned. */
	readonly prior: number;
	/** Whole minutes to plan with: the estimate, rounded up. */
	readonly suggested: number;
}

export interface ShareEstimate extends Estimate {
	readonly assumed: number;
	/** How often it happened, of how many. */
	readonly count: number;
	readonly of: number;
}

export interface StationTime {
	readonly classes: readonly ClassEstimate[];
	readonly noShow: ShareEstimate;
	readonly repeatVisit: ShareEstimate;
	readonly failToEnroll: ShareEstimate;
}

/** Minutes of one person from the stages of a visit. */
export function minutesOfStages(stages: Stages): number {
	const capture = (stages.fingers * stages.attempts * stages.secondsPerAttempt) / 60;
	return stages.identityMinutes + stages.noticeMinutes + capture + stages.doorTestMinutes;
}

/** Station times by capture class and shares of visits, estimated with a confidence (0 to 1) for their intervals. */
export function estimateStationTime(rollout: Rollout, confidence: number): StationTime {
	const { captureClasses, visits, assumptions } = rollout.enrollment;
	const classById = new Map(rollout.people.map(({ id, captureClass }) => [id, captureClass ?? captureClasses[0]?.id]));
	const came = visits.filter(({ outcome }) => outcome !== 'no-show');
	const timed = visits.flatMap(({ person, minutes, outcome }, place) =>
		outcome === 'no-show' || minutes === null ? [] : [{ person, minutes, place }]
	);
	const times = groupBy(timed, ({ person }) => classById.get(person));
	// Only the first visit of a person can find out that they cannot be enrolled; each visit of the others may have to be repeated.
	const failed = came.filter(({ outcome }) => outcome === 'failed').length;
	const repeated = came.filter(({ outcome }) => outcome === 'repeat').length;
	const share = (assumed: number, count: number, of: number): ShareEstimate => ({
		assumed,
		count,
		of,
		...estimateShare(assumed, count, of, confidence)
	});
	return {
		classes: captureClasses.map(({ id, minutes, stages }) => {
			const own = times.get(id) ?? [];
			const seen = own.map((visit) => visit.minutes);
			const prior = stages === null ? minutes : minutesOfStages(stages);
			const found = estimateMean(prior, assumptions.minutesSpread, seen, confidence);
			const isDoubtful = doubtOf(prior, assumptions.minutesSpread, seen);
			const doubtful = own.filter((visit) => isDoubtful(visit.minutes)).map(({ place }) => place);
			const sound = seen.filter((one) => !isDoubtful(one));
			return {
				captureClass: id,
				planned: minutes,
				stages: stages === null ? null : prior,
				visits: seen.length,
				mean: seen.length === 0 ? null : meanOf(seen),
				prior,
				doubtful,
				withoutDoubtful:
					doubtful.length === 0 ? null : estimateMean(prior, assumptions.minutesSpread, sound, confidence).estimate,
				...found,
				suggested: Math.max(1, Math.ceil(found.estimate - 1e-9))
			};
		}),
		noShow: share(assumptions.noShow, visits.length - came.length, visits.length),
		repeatVisit: share(assumptions.repeatVisit, repeated, came.length - failed),
		failToEnroll: share(assumptions.failToEnroll, failed, new Set(came.map(({ person }) => person)).size)
	};
}

/**
 * Tells minutes that lie far from the others: more than 3.5 robust deviations from the median, what was assumed counting as that
 * many visits. Only a mark: a visit is left out by nobody but a person.
 * @source Iglewicz and Hoaglin, How to Detect and Handle Outliers (1993), the modified z-score; from memory
 */
function doubtOf(prior: number, spread: number, seen: readonly number[]): (minutes: number) => boolean {
	const all = [...seen, ...Array.from({ length: assumedCountsFor.times }, () => prior)];
	const middle = medianOf(all);
	const deviation = 1.4826 * medianOf(all.map((one) => Math.abs(one - middle)));
	const limit = 3.5 * Math.max(deviation, prior * (spread > 0 ? spread : 0.25));
	return (minutes) => Math.abs(minutes - middle) > limit;
}

function medianOf(numbers: readonly number[]): number {
	const sorted = numbers.toSorted((a, b) => a - b);
	const half = sorted.length / 2;
	return ((sorted[Math.ceil(half) - 1] as number) + (sorted[Math.floor(half)] as number)) / 2;
}

function meanOf(numbers: readonly number[]): number {
	return numbers.reduce((sum, one) => sum + one, 0) / numbers.length;
}

/**
 * The mean of some minutes, shrunk toward what was assumed: normal and inverse-gamma. `spread` is the assumed deviation over the
 * mean; a quarter where none is assumed, since no station time is the same each time.
 */
export function estimateMean(prior: number, spread: number, seen: readonly number[], confidence: number): Estimate {
	const strength = assumedCountsFor.times;
	const count = seen.length;
	const mean = count === 0 ? prior : meanOf(seen);
	const estimate = (strength * prior + count * mean) / (strength + count);
	const deviation = prior * (spread > 0 ? spread : 0.25);
	const squares =
		strength * deviation * deviation +
		seen.reduce((sum, one) => sum + (one - mean) ** 2, 0) +
		((strength * count) / (strength + count)) * (mean - prior) ** 2;
	const freedom = strength + count;
	const half = studentQuantile((1 + confidence) / 2, freedom) * Math.sqrt(squares / freedom / (strength + count));
	return { estimate, low: Math.max(0, estimate - half), high: estimate + half };
}

/** A share, shrunk toward what was assumed: beta. A share assumed to be 0 or 1 stays near it until something else is seen. */
export function estimateShare(assumed: number, count: number, of: number, confidence: number): Estimate {
	const strength = assumedCountsFor.shares;
	// Nothing is taken for impossible, or for certain, before it was seen.
	const prior = Math.min(Math.max(assumed, 0.005), 0.995);
	const a = strength * prior + count;
	const b = strength * (1 - prior) + (of - count);
	const tail = (1 - confidence) / 2;
	return { estimate: a / (a + b), low: betaQuantile(tail, a, b), high: betaQuantile(1 - tail, a, b) };
}
