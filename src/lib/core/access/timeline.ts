import { type Building, areasReached } from './building';
import { remembered } from '../kernel/remembered';
import type { CellPatterns } from './cell-patterns';

/**
 * What somebody with certain grants may open and can reach, cell by cell of the time line.
 *
 * The idea: in a cell everything follows from the patterns that the grants have in it and from its length. Cells with the same
 * patterns share one *course*, worked out once: a year has a few dozen courses, not hundreds of days. Inside a course the set
 * of open grants changes at the ends of spans; each set that occurs is a *state*, worked out once too. Invariant: a course's
 * bounds run from 0 to the cell's length, strictly growing, one state between neighbors. Cost: cells x grants to tell courses
 * apart, plus one search of the building per state. Our own.
 */

/** Grants that are open at the same instants, as a pattern per cell, and the doors that they open. */
export interface GrantPart {
	readonly patterns: Int32Array;
	readonly doors: readonly number[];
}

/** Which doors may be opened and which areas can be reached while the same grants are open, by their places. */
export interface State {
	readonly open: Uint8Array;
	readonly reach: Uint8Array;
}

/** A cell's worth of time: `states[i]` holds from `bounds[i]` to `bounds[i + 1]`, in seconds from the cell's beginning. */
export interface Course {
	readonly bounds: readonly number[];
	readonly states: readonly State[];
	/** Doors that may be opened at some time in it. */
	readonly opened: Uint8Array;
	/** Of these, the doors that may be opened at some time while the area from which they lead can be reached. */
	readonly met: Uint8Array;
}

export class Timeline {
	readonly #building: Building;
	readonly #patterns: CellPatterns;
	readonly #parts: readonly GrantPart[];
	readonly #states = new Map<string, State>();
	/** Courses, each with a cell that has it, by a hash of what tells them apart; the few that share a hash are compared. */
	readonly #candidates = new Map<number, { readonly cell: number; readonly course: Course }[]>();

	constructor(building: Building, patterns: CellPatterns, parts: readonly GrantPart[]) {
		this.#building = building;
		this.#patterns = patterns;
		this.#parts = parts;
	}

	/** The course of a cell: the same object for cells in which the same happens. */
	course(cell: number): Course {
		const length = this.#lengthOf(cell);
		let hash = length;
		for (const { patterns } of this.#parts) hash = (Math.imul(hash, 31) + (patterns[cell] as number)) | 0;
		const candidates = remembered(this.#candidates, hash, () => []);
		const same = candidates.find((one) => this.#lengthOf(one.cell) === length && this.#isAlike(one.cell, cell));
		if (same) return same.course;
		const course = this.#sweep(cell);
		candidates.push({ cell, course });
		return course;
	}

	#lengthOf(cell: number): number {
		const { from, to } = this.#patterns.cells[cell] as { from: number; to: number };
		return to - from;
	}

	#isAlike(a: number, b: number): boolean {
		return this.#parts.every(({ patterns }) => patterns[a] === patterns[b]);
	}

	#sweep(cell: number): Course {
		const length = this.#lengthOf(cell);
		const events: { at: number; part: number; opens: 0 | 1 }[] = [];
		this.#parts.forEach(({ patterns }, part) => {
			const pattern = this.#patterns.pattern(patterns[cell] as number);
			pattern.forEach((at, place) => events.push({ at, part, opens: place % 2 === 0 ? 1 : 0 }));
		});
		// At one instant a span that ends goes first, so that one that begins there stays open.
		events.sort((a, b) => a.at - b.at || a.opens - b.opens);
		const openParts = new Uint8Array(this.#parts.length);
		const bounds: number[] = [];
		const states: State[] = [];
		let next = 0;
		for (let at = 0; at < length; at = events[next]?.at ?? length) {
			for (; next < events.length && (events[next]?.at ?? 0) <= at; next++) {
				const event = events[next];
				if (event) openParts[event.part] = event.opens;
			}
			const state = this.#stateOf(openParts);
			if (state !== states.at(-1)) {
				bounds.push(at);
				states.push(state);
			}
		}
		return { bounds: [...bounds, length], states, ...this.#summaryOf(states) };
	}

	#stateOf(openParts: Uint8Array): State {
		const key = openParts.join('');
		const known = this.#states.get(key);
		if (known) return known;
		const open = new Uint8Array(this.#building.doors.length);
		openParts.forEach((isOpen, part) => {
			if (isOpen) for (const door of this.#parts[part]?.doors ?? []) open[door] = 1;
		});
		const state = { open, reach: areasReached(this.#building, open) };
		this.#states.set(key, state);
		return state;
	}

	#summaryOf(states: readonly State[]): Pick<Course, 'opened' | 'met'> {
		const { doors } = this.#building;
		const [opened, met] = [new Uint8Array(doors.length), new Uint8Array(doors.length)];
		for (const { open, reach } of new Set(states)) {
			for (let door = 0; door < doors.length; door++) {
				if (open[door] !== 1) continue;
				opened[door] = 1;
				if (reach[doors[door]?.from ?? -1] === 1) met[door] = 1;
			}
		}
		return { opened, met };
	}
}
