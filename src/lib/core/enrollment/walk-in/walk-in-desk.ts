import { stretch } from '../../calendar/stretch';
import type { Rollout } from '../../document/schema';
import { EnrollmentModel } from '../model';
import { type LinePiece, lineOfDay } from './line-of-a-day';
import { type SteadyLine, lanesFor, longerThan, steadyLine } from './queue';

/** A desk to which people come when it suits them, in place of appointments. */
export interface WalkInTerms {
	/** When the desk is open, as `08:00-12:00`. */
	readonly open: string;
	/** People who come in each hour from the opening on; the last number holds for the hours after it. */
	readonly arrivals: readonly number[];
	readonly lanes: number;
	/** Time at the station and turnover, mean in minutes, and its standard deviation over that mean. */
	readonly minutes: number;
	readonly variation: number;
	/** The wait in minutes that should not be exceeded, and the share of people for whom it should not. */
	readonly withinMinutes: number;
	readonly share: number;
}

export interface WalkInHour {
	/** From and to as minutes of the day; the last hour may be shorter. */
	readonly from: number;
	readonly to: number;
	readonly arrivalsPerHour: number;
	/** Mean number waiting over the hour, and at its end. */
	readonly queue: number;
	readonly queueAtEnd: number;
	readonly waitMinutes: number;
	/** The wait in minutes that the asked share of those who come in the hour does not exceed. */
	readonly waitAtShare: number;
	/** Share of those who come in the hour that wait longer than asked. */
	readonly longer: number;
	/** Share of the lanes that is busy. */
	readonly use: number;
	/** The same if the hour went on for ever; null where the line would then grow without end. */
	readonly steady: { readonly queue: number; readonly waitMinutes: number; readonly longer: number } | null;
	/** Lanes that keep the goal if the hour went on for ever; null where it takes more than a thousand. */
	readonly lanesNeeded: number | null;
}

export interface WalkInDesk {
	readonly hours: readonly WalkInHour[];
	/** People who come in all, and the share of them that wait longer than asked. */
	readonly people: number;
	readonly longer: number;
	/** The fewest lanes, the same all day, with which the goal holds over the day; null where none up to a thousand do. */
	readonly lanesNeeded: number | null;
	/** The same day with other numbers of lanes: those around the asked and the needed one. */
	readonly byLanes: readonly LanesOfDay[];
}

/** A day with a number of lanes. */
export interface LanesOfDay {
	readonly lanes: number;
	/** Mean wait in minutes over the day, and the share of people that wait longer than asked. */
	readonly waitMinutes: number;
	readonly longer: number;
	/** Likely still waiting when the desk closes. */
	readonly queueAtEnd: number;
}

/** The wait and the line by the hour. Refuses (RangeError) what `lineOfDay` refuses, and a list of arrivals that is empty. */
export function walkInDesk(terms: WalkInTerms): WalkInDesk {
	const hours = hoursOf(terms);
	const pieces = follow(hours, terms, terms.lanes);
	const service = { serviceHours: terms.minutes / 60, variation: terms.variation };
	const goal = { hours: terms.withinMinutes / 60, share: terms.share };
	const needed = fewestLanes(hours, terms);
	return {
		hours: hours.map(({ from, to, arrivalsPerHour }, index) => {
			const piece = pieces[index] as LinePiece;
			return {
				from,
				to,
				arrivalsPerHour,
				queue: piece.queue,
				queueAtEnd: piece.queueAtEnd,
				waitMinutes: piece.wait * 60,
				waitAtShare: piece.waitAtShare * 60,
				longer: piece.longer,
				use: piece.use,
				steady: steadyOf(arrivalsPerHour, terms),
				lanesNeeded: lanesFor({ arrivalsPerHour, ...service }, goal) ?? null
			};
		}),
		people: hours.reduce((sum, hour) => sum + peopleIn(hour), 0),
		longer: longerShare(hours, pieces),
		lanesNeeded: needed,
		byLanes: lanesAround(terms.lanes, needed).map((lanes) => lanesOfDay(hours, terms, lanes))
	};
}

/** From one below the fewer of the two to one above the more; the ends alone where that would be many. */
function lanesAround(asked: number, needed: number | null): number[] {
	const [low, high] = [Math.min(asked, needed ?? asked) - 1, Math.max(asked, needed ?? asked) + 1];
	const all = Array.from({ length: Math.min(high - low + 1, 8) }, (_, index) => low + index);
	if (high - low > 7) all.splice(4, 4, high - 3, high - 2, high - 1, high);
	return all.filter((lanes) => lanes >= 1 && lanes <= mostLanes);
}

function lanesOfDay(hours: readonly Hour[], terms: WalkInTerms, lanes: number): LanesOfDay {
	const pieces = follow(hours, terms, lanes);
	const people = hours.reduce((sum, hour) => sum + peopleIn(hour), 0);
	const waited = hours.reduce(
		(sum, hour, index) => sum + (peopleIn(hour) === 0 ? 0 : peopleIn(hour) * (pieces[index]?.wait ?? 0)),
		0
	);
	return {
		lanes,
		waitMinutes: people === 0 ? 0 : (60 * waited) / people,
		longer: longerShare(hours, pieces),
		queueAtEnd: pieces.at(-1)?.queueAtEnd ?? 0
	};
}

interface Hour {
	readonly from: number;
	readonly to: number;
	readonly arrivalsPerHour: number;
}

function hoursOf({ open, arrivals }: WalkInTerms): Hour[] {
	if (arrivals.length === 0) throw new RangeError('arrivals of at least one hour are needed');
	const { from: start, to } = stretch(open);
	return Array.from({ length: Math.ceil((to - start) / 60) }, (_, hour) => ({
		from: start + 60 * hour,
		to: Math.min(to, start + 60 * (hour + 1)),
		arrivalsPerHour: arrivals[Math.min(hour, arrivals.length - 1)] as number
	}));
}

function follow(hours: readonly Hour[], terms: WalkInTerms, lanes: number): LinePiece[] {
	return lineOfDay(
		hours.map(({ from, to, arrivalsPerHour }) => ({ hours: (to - from) / 60, arrivalsPerHour, lanes })),
		{ hours: terms.minutes / 60, variation: terms.variation },
		terms.withinMinutes / 60,
		terms.share
	);
}

function steadyOf(arrivalsPerHour: number, terms: WalkInTerms): WalkInHour['steady'] {
	const serviceHours = terms.minutes / 60;
	if (arrivalsPerHour * serviceHours >= terms.lanes) return null;
	const line: SteadyLine = steadyLine({
		arrivalsPerHour,
		lanes: terms.lanes,
		serviceHours,
		variation: terms.variation
	});
	return { queue: line.queue, waitMinutes: line.wait * 60, longer: longerThan(line, terms.withinMinutes / 60) };
}

function peopleIn({ from, to, arrivalsPerHour }: Hour): number {
	return (arrivalsPerHour * (to - from)) / 60;
}

function longerShare(hours: readonly Hour[], pieces: readonly LinePiece[]): number {
	const people = hours.reduce((sum, hour) => sum + peopleIn(hour), 0);
	if (people === 0) return 0;
	return hours.reduce((sum, hour, index) => sum + peopleIn(hour) * (pieces[index]?.longer ?? 0), 0) / people;
}

const mostLanes = 1000;

/** More lanes never make anybody wait longer, so the fewest are found by halving. */
function fewestLanes(hours: readonly Hour[], terms: WalkInTerms): number | null {
	const holds = (lanes: number): boolean => longerShare(hours, follow(hours, terms, lanes)) <= 1 - terms.share + 1e-12;
	let high = 1;
	while (!holds(high)) {
		if (high >= mostLanes) return null;
		high = Math.min(2 * high, mostLanes);
	}
	let low = Math.floor(high / 2);
	while (high - low > 1) {
		const middle = (low + high) >>> 1;
		if (holds(middle)) high = middle;
		else low = middle;
	}
	return high;
}

/**
 * Station time and turnover of the people still to be enrolled, for a desk that serves them all: mean in minutes and standard
 * deviation over mean, from their capture classes and the assumed spread. Undefined where nobody is to be enrolled.
 */
export function serviceOf(
	rollout: Rollout,
	turnoverMinutes: number
): { minutes: number; variation: number } | undefined {
	const model = new EnrollmentModel(rollout);
	const minutes = rollout.people.flatMap((person) =>
		model.standings.get(person.id) === 'to-book' ? [model.minutesOf(person) ?? 0] : []
	);
	if (minutes.length === 0) return undefined;
	const { minutesSpread } = rollout.enrollment.assumptions;
	const mean = minutes.reduce((sum, one) => sum + one, 0) / minutes.length;
	const square =
		minutes.reduce((sum, one) => sum + one * one * (1 + minutesSpread * minutesSpread), 0) / minutes.length;
	const all = mean + turnoverMinutes;
	return { minutes: all, variation: all === 0 ? 0 : Math.sqrt(Math.max(0, square - mean * mean)) / all };
}
