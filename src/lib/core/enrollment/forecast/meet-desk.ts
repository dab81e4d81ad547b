import type { Instance } from '../instance';
import type { Lane } from '../board';
import { stretchAround } from '../validity';
import type { Chance } from './chance';
import type { Desk, ForecastPuzzle } from './puzzle';

/** Chances of a visit, each 0 to 1, and the spread of station time (standard deviation over mean). */
export interface VisitAssumptions {
	readonly noShow: number;
	readonly repeatVisit: number;
	readonly failToEnroll: number;
	readonly minutesSpread: number;
}

/** What becomes of the appointments of a desk: exactly one of the two for each, in order. */
export interface DeskEvents {
	/** Did not come, or was sent away because the desk closed. */
	missed(person: number): void;
	/** Came and was served until an instant. */
	served(person: number, end: number): void;
	/** Came, whether served or sent away. */
	came(): void;
}

/**
 * Meets the appointments of a desk one after the other. Somebody does not come (`noShow`), or comes and is served when the one before
 * is done; who cannot be served before the desk closes is sent away. `people` are ordered by start, each with a cell on the board.
 */
export function meetDesk(
	{ board }: ForecastPuzzle,
	{ unit, lane, turnover }: Desk,
	people: ArrayLike<number>,
	chance: Chance,
	assumptions: VisitAssumptions,
	events: DeskEvents
): void {
	const { base, station } = board.lanes[lane] as Lane;
	const lattice = board.instance.lattices[station] as Instance['lattices'][number];
	const stretches = lattice.runs[board.unitRun[unit] as number]?.stretches ?? [];
	// Seconds that a desk stays open for somebody whose turn came late: one step of the grid. Common practice, no source.
	const patience = board.instance.model.rollout.enrollment.gridMinutes * 60;
	let ready = -Infinity;
	for (let at = 0; at < people.length; at++) {
		const person = people[at] as number;
		if (chance.happens(assumptions.noShow)) {
			events.missed(person);
			continue;
		}
		events.came();
		const { minutes } = board.kindOf(person);
		const start = lattice.at[(board.cellOf[person] as number) - base] as number;
		const begin = Math.max(start, ready);
		const stretch = stretches.length === 1 ? stretches[0] : stretchAround(stretches, start, start + minutes * 60);
		if (begin + minutes * 60 > (stretch?.to ?? start) + patience) {
			events.missed(person);
			continue;
		}
		const end = begin + chance.logNormal(minutes * 60, assumptions.minutesSpread);
		ready = end + turnover;
		events.served(person, end);
	}
}
