import type { Lane } from '../board';
import type { Instance, Kind } from '../instance';
import type { Chance } from './chance';
import { type VisitAssumptions, meetDesk } from './meet-desk';
import type { ForecastPuzzle } from './puzzle';

/** An appointment that somebody needs again. */
export interface Rebooking {
	readonly person: number;
	/** The day on which it can be held, as a place in `days`, and the station. */
	readonly day: number;
	readonly station: number;
	/** Station time and turnover in minutes. */
	readonly minutes: number;
}

/** What becomes of a future: the appointments needed again, and who is late however much time is kept free. */
export interface RebookingEvents {
	needed(rebooking: Rebooking): void;
	late(person: number): void;
}

/** The next day on which a kind can come, the station, and the instant at which the first appointment there ends. */
interface Chances {
	readonly day: number;
	readonly station: number;
	readonly end: number;
}

/**
 * Futures in which time is always kept free: whoever must come again does so on the next day on which a station that serves them is
 * open within their working time, after those who were planned, and does not hold anybody up. So the demand does not hang on what
 * is free now. Appointments of the plan are met as in the forecast. Away-limits are not asked.
 */
export class Rebookings {
	readonly #puzzle: ForecastPuzzle;
	readonly #assumptions: VisitAssumptions;
	/** By kind, day and station of the appointment before; null where there is no later day. */
	readonly #next = new Map<number, Chances | null>();

	constructor(puzzle: ForecastPuzzle, assumptions: VisitAssumptions) {
		this.#puzzle = puzzle;
		this.#assumptions = assumptions;
	}

	/** Plays one future out. */
	run(chance: Chance, events: RebookingEvents): void {
		const { days, desksOfDay, board } = this.#puzzle;
		for (let day = 0; day < days.length; day++) {
			for (const desk of desksOfDay[day] ?? []) {
				const { station } = board.lanes[desk.lane] as Lane;
				meetDesk(this.#puzzle, desk, desk.people, chance, this.#assumptions, {
					missed: (person) => this.#again(person, day, station, true, chance, events),
					served: (person) => {
						if (chance.happens(this.#assumptions.failToEnroll)) return;
						if (chance.happens(this.#assumptions.repeatVisit)) this.#again(person, day, station, false, chance, events);
					},
					came: () => undefined
				});
			}
		}
	}

	/** Appointments of somebody who must come again, until they are done or it is too late. `isFirst`: they were not there yet. */
	#again(person: number, from: number, at: number, isFirst: boolean, chance: Chance, events: RebookingEvents): void {
		const { board, deadlineOf } = this.#puzzle;
		const { noShow, failToEnroll, repeatVisit } = this.#assumptions;
		const { lattices } = board.instance;
		const { minutes } = board.kindOf(person);
		let [before, station, isFirstVisit] = [from, at, isFirst];
		for (;;) {
			const next = this.#nextOf(board.instance.kindOf[person] as number, before, station);
			if (!next || next.end > (deadlineOf[person] as number)) {
				events.late(person);
				return;
			}
			const turnover = (lattices[next.station] as Instance['lattices'][number]).ready.station.turnoverMinutes;
			events.needed({ person, day: next.day, station: next.station, minutes: minutes + turnover });
			[before, station] = [next.day, next.station];
			if (chance.happens(noShow)) continue;
			if (isFirstVisit && chance.happens(failToEnroll)) return;
			isFirstVisit = false;
			if (!chance.happens(repeatVisit)) return;
		}
	}

	#nextOf(kind: number, day: number, station: number): Chances | null {
		const { days, board } = this.#puzzle;
		const key = (kind * days.length + day) * board.instance.lattices.length + station;
		let found = this.#next.get(key);
		if (found === undefined) this.#next.set(key, (found = this.#find(kind, day, station)));
		return found;
	}

	/** On the next possible day the same station where it is open to the kind, else the one with the earliest start. */
	#find(index: number, after: number, station: number): Chances | null {
		const { days, desksOfDay, board } = this.#puzzle;
		const kind = board.instance.kinds[index] as Kind;
		for (let day = after + 1; day < days.length; day++) {
			const found = (desksOfDay[day] ?? []).flatMap(({ unit, lane }) => {
				const { station: at } = board.lanes[lane] as Lane;
				const window = kind.windows[at];
				const place = window?.first[board.unitRun[unit] as number] as number;
				if (!window || place >= (window.first[(board.unitRun[unit] as number) + 1] as number)) return [];
				const start = board.instance.lattices[at]?.at[window.lo[place] as number] as number;
				return [{ day, station: at, end: start + kind.minutes * 60 }];
			});
			found.sort((a, b) => Number(b.station === station) - Number(a.station === station) || a.end - b.end);
			if (found[0]) return found[0];
		}
		return null;
	}
}
