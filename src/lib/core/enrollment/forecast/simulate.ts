import type { Lane } from '../board';
import { stretchAround } from '../validity';
import type { Chance } from './chance';
import { FreeStarts } from './free-starts';
import type { Desk, ForecastPuzzle } from './puzzle';

/** Chances of a visit, each 0 to 1, and the spread of station time (standard deviation over mean). */
export interface VisitAssumptions {
	readonly noShow: number;
	readonly repeatVisit: number;
	readonly failToEnroll: number;
	readonly minutesSpread: number;
}

/** How a run ended for a person: still waiting, enrolled, or found not to be enrollable (another credential). */
export const waiting = 0;
export const enrolled = 1;
export const notEnrollable = 2;

/**
 * One possible future after the other of the same starting plan.
 *
 * Desks are met day by day, appointments of a desk in order. Somebody does not come (`noShow`), or comes and is served when the one
 * before is done; who cannot be served before the desk closes is sent away. Who is served is enrolled, must come again
 * (`repeatVisit`, each time anew, so that visits are geometric), or turns out not to be enrollable (`failToEnroll`, at the first
 * visit). Whoever still waits at the end of a day is booked into the earliest start on a later day that is really free then: lane,
 * shift, walk, needs and away-limits hold, due dates do not. Nobody else is moved. Cost of a run: its appointments.
 */
export class Simulation {
	/** By person, after `run`: how it ended, and when (instant; infinite while waiting). */
	readonly stateOf: Uint8Array;
	readonly doneAt: Float64Array;
	/** Visits that somebody came to, and appointments made, after `run`. */
	visits = 0;
	appointments = 0;
	readonly #puzzle: ForecastPuzzle;
	readonly #assumptions: VisitAssumptions;
	readonly #starts: FreeStarts;
	readonly #next: Int32Array;
	readonly #cameBefore: Uint8Array;
	readonly #added = new Map<number, number[]>();

	constructor(puzzle: ForecastPuzzle, assumptions: VisitAssumptions) {
		const { people, board, days } = puzzle;
		this.#puzzle = puzzle;
		this.#assumptions = assumptions;
		this.#starts = new FreeStarts(puzzle);
		this.stateOf = new Uint8Array(people.length);
		this.doneAt = new Float64Array(people.length);
		this.#cameBefore = new Uint8Array(people.length);
		this.#next = new Int32Array(board.instance.kinds.length * days.length);
	}

	/** Plays one future out; the results stand in the fields until the next call. */
	run(chance: Chance): void {
		const { board, days, desksOfDay, people } = this.#puzzle;
		this.stateOf.fill(waiting);
		this.doneAt.fill(Infinity);
		this.#cameBefore.fill(0);
		this.#next.fill(0);
		this.#added.clear();
		this.visits = 0;
		this.appointments = people.length - this.#puzzle.waiting.length;
		const moment = board.moment;
		for (const person of this.#puzzle.waiting) this.#book(person, 0);
		for (let day = 0; day < days.length; day++) {
			const missed: number[] = [];
			for (const desk of desksOfDay[day] ?? []) this.#meet(desk, chance, missed);
			for (const person of missed) this.#book(person, day + 1);
		}
		board.undoTo(moment);
	}

	/** Books somebody into the earliest start that is free on a day or later; nothing where none is. */
	#book(person: number, from: number): void {
		const { board, days, deskOfUnit } = this.#puzzle;
		const index = board.instance.kindOf[person] as number;
		const kind = board.kindOf(person);
		if ((board.cellOf[person] as number) >= 0) board.remove(person);
		for (let day = from; day < days.length; day++) {
			const starts = this.#starts.of(index, day);
			const key = index * days.length + day;
			for (let at = this.#next[key] as number; at < starts.length; at++) {
				this.#next[key] = at + 1;
				const cell = starts[at] as number;
				const unit = board.unitOfCell[cell] as number;
				const { lane } = deskOfUnit.get(unit) as Desk;
				if (!board.fits(kind, lane, cell)) continue;
				board.place(person, lane, cell);
				this.appointments++;
				const list = this.#added.get(unit);
				if (list) list.push(person);
				else this.#added.set(unit, [person]);
				return;
			}
		}
	}

	#meet({ unit, lane, turnover, people }: Desk, chance: Chance, missed: number[]): void {
		const { board } = this.#puzzle;
		const added = this.#added.get(unit);
		const { base, station } = board.lanes[lane] as Lane;
		const lattice = board.instance.lattices[station] as (typeof board.instance.lattices)[number];
		const stretches = lattice.runs[board.unitRun[unit] as number]?.stretches ?? [];
		const order = added
			? [...people, ...added].sort((a, b) => (board.cellOf[a] as number) - (board.cellOf[b] as number))
			: people;
		let ready = -Infinity;
		for (let at = 0; at < order.length; at++) {
			const person = order[at] as number;
			if (chance.happens(this.#assumptions.noShow)) {
				missed.push(person);
				continue;
			}
			this.visits++;
			const kind = board.kindOf(person);
			const start = lattice.at[(board.cellOf[person] as number) - base] as number;
			const begin = Math.max(start, ready);
			const stretch =
				stretches.length === 1 ? stretches[0] : stretchAround(stretches, start, start + kind.minutes * 60);
			if (begin + kind.minutes * 60 > (stretch?.to ?? start) + this.#patience) {
				missed.push(person);
				continue;
			}
			const end = begin + chance.logNormal(kind.minutes * 60, this.#assumptions.minutesSpread);
			ready = end + turnover;
			this.#serve(person, end, chance, missed);
		}
	}

	#serve(person: number, end: number, chance: Chance, missed: number[]): void {
		const isFirst = this.#cameBefore[person] === 0;
		this.#cameBefore[person] = 1;
		if (isFirst && chance.happens(this.#assumptions.failToEnroll)) this.stateOf[person] = notEnrollable;
		else if (chance.happens(this.#assumptions.repeatVisit)) return void missed.push(person);
		else this.stateOf[person] = enrolled;
		this.doneAt[person] = end;
	}

	/** Seconds that a desk stays open for somebody whose turn came late: one step of the grid. Common practice, no source. */
	get #patience(): number {
		return this.#puzzle.board.instance.model.rollout.enrollment.gridMinutes * 60;
	}
}
