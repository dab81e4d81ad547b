import type { Chance } from './chance';
import { FreeStarts } from './free-starts';
import { type VisitAssumptions, meetDesk } from './meet-desk';
import type { Desk, ForecastPuzzle } from './puzzle';

/** How a run ended for a person: still waiting, enrolled, or found not to be enrollable (another credential). */
export const waiting = 0;
export const enrolled = 1;
export const notEnrollable = 2;

/**
 * One possible future after the other of the same starting plan.
 *
 * Desks are met day by day, appointments of a desk in order (`meetDesk`). Who is served is enrolled, must come again
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

	#meet(desk: Desk, chance: Chance, missed: number[]): void {
		const { board } = this.#puzzle;
		const added = this.#added.get(desk.unit);
		const order = added
			? [...desk.people, ...added].sort((a, b) => (board.cellOf[a] as number) - (board.cellOf[b] as number))
			: desk.people;
		meetDesk(this.#puzzle, desk, order, chance, this.#assumptions, {
			missed: (person) => missed.push(person),
			served: (person, end) => this.#serve(person, end, chance, missed),
			came: () => this.visits++
		});
	}

	#serve(person: number, end: number, chance: Chance, missed: number[]): void {
		const isFirst = this.#cameBefore[person] === 0;
		this.#cameBefore[person] = 1;
		if (isFirst && chance.happens(this.#assumptions.failToEnroll)) this.stateOf[person] = notEnrollable;
		else if (chance.happens(this.#assumptions.repeatVisit)) return void missed.push(person);
		else this.stateOf[person] = enrolled;
		this.doneAt[person] = end;
	}
}
