import { AwayTally } from './away-tally';
import type { Instance, Kind } from './instance';
import { firstSlotFrom } from './lattice';
import { stretchAround } from './validity';
import type { Window } from './windows';

/**
 * Who stands where, while a plan is being made.
 *
 * Every lane has one *cell* for each slot of its station; a cell holds the person whose booking takes it, or says that it is free
 * or blocked by a booking that stands. A *unit* is one run of one lane, the room in which bookings can be pushed together. A
 * *session* is one open stretch of one lane (a unit, but for stretches that overlap). Invariant: the board never holds
 * an invalid plan; `place` is called only where `fits` is true. Placing and removing cost the length of a booking.
 */

export const free = -1;
export const blocked = -2;

export interface Lane {
	readonly station: number;
	/** As in bookings, from 1. */
	readonly number: number;
	/** First cell. */
	readonly base: number;
	/** First unit. */
	readonly units: number;
	/** First session. */
	readonly sessions: number;
}

export class Board {
	readonly instance: Instance;
	readonly lanes: readonly Lane[];
	/** Lanes of a station: from laneFirst[station] up to laneFirst[station + 1]. */
	readonly laneFirst: Int32Array;
	readonly cells: Int32Array;
	readonly unitOfCell: Int32Array;
	/** Lane, run, first cell and cell after the last, by unit. */
	readonly unitLane: Int32Array;
	readonly unitRun: Int32Array;
	readonly unitFrom: Int32Array;
	readonly unitTo: Int32Array;
	readonly freeIn: Int32Array;
	/** Bookings by session, those that stand included. */
	readonly bookedIn: Int32Array;
	/** First cell of each person's booking; -1 for none. */
	readonly cellOf: Int32Array;
	readonly endOf: Int32Array;
	/** Lane of each person's booking; -1 for none. */
	readonly laneOf: Int32Array;
	readonly sessionOf: Int32Array;
	readonly tally: AwayTally;
	/** Cells of the longest booking, and of the shortest. */
	readonly longest: number;
	readonly shortest: number;
	/** Seconds of the longest step from one slot of a run to the next. */
	readonly #step: number;
	/** Number of people booked, and number of sessions in use. */
	booked = 0;
	sessionsUsed = 0;
	/** Work done on the board: bookings made, moved and looked at. Limits of searches count it, never time, so that work is the same everywhere. */
	effort = 0;
	/** Every booking (place) and removal (-1 - place) since the last `forget`, with its lane and cell, so that they can be undone. */
	readonly #journal: number[] = [];

	constructor(instance: Instance) {
		this.instance = instance;
		const lanes: Lane[] = [];
		const laneFirst: number[] = [];
		let [base, units, sessions] = [0, 0, 0];
		for (const [station, lattice] of instance.lattices.entries()) {
			laneFirst.push(lanes.length);
			for (const number of instance.lanes[station] as readonly number[]) {
				lanes.push({ station, number, base, units, sessions });
				base += lattice.at.length;
				units += lattice.runs.length;
				sessions += lattice.ready.stretches.length;
			}
		}
		laneFirst.push(lanes.length);
		this.lanes = lanes;
		this.laneFirst = Int32Array.from(laneFirst);
		this.cells = new Int32Array(base).fill(free);
		this.unitOfCell = new Int32Array(base);
		this.unitLane = new Int32Array(units);
		this.unitRun = new Int32Array(units);
		this.unitFrom = new Int32Array(units);
		this.unitTo = new Int32Array(units);
		this.freeIn = new Int32Array(units);
		this.bookedIn = new Int32Array(sessions);
		this.cellOf = new Int32Array(instance.people.length).fill(-1);
		this.endOf = new Int32Array(instance.people.length).fill(-1);
		this.laneOf = new Int32Array(instance.people.length).fill(-1);
		this.sessionOf = new Int32Array(instance.people.length).fill(-1);
		this.tally = new AwayTally(instance);
		this.longest = instance.next.reduce(
			(most, byDuration) => byDuration.reduce((best, next) => longestOf(next, best), most),
			1
		);
		this.shortest = instance.next.reduce(
			(least, byDuration) =>
				byDuration.reduce((best, next) => (next.length > 0 ? Math.min(best, next[0] as number) : best), least),
			this.longest
		);
		this.#step = longestStep(instance);
		this.#layUnits();
		this.#blockStanding();
	}

	/** Cells that a booking of a kind holds at the least, also at the end of a run, behind which its turnover may lie. */
	leastCells(kind: Kind): number {
		return Math.max(1, Math.floor((kind.minutes * 60) / this.#step));
	}

	#layUnits(): void {
		this.lanes.forEach((lane, index) => {
			const { runFirst, runs } = this.instance.lattices[lane.station] as Instance['lattices'][number];
			runs.forEach((_, run) => {
				const unit = lane.units + run;
				this.unitLane[unit] = index;
				this.unitRun[unit] = run;
				this.unitFrom[unit] = lane.base + (runFirst[run] as number);
				this.unitTo[unit] = lane.base + (runFirst[run + 1] as number);
				this.freeIn[unit] = this.unitTo[unit] - this.unitFrom[unit];
				this.unitOfCell.fill(unit, this.unitFrom[unit], this.unitTo[unit]);
			});
		});
	}

	#blockStanding(): void {
		for (const standing of this.instance.standing) {
			const lattice = this.instance.lattices[standing.station] as Instance['lattices'][number];
			const lane = this.lanes.find((one) => one.station === standing.station && one.number === standing.lane);
			if (!lane) continue;
			let slot = firstSlotFrom(lattice, standing.from);
			// One that stands off the grid takes the slot before it as well.
			if (slot > 0 && lattice.at[slot] !== standing.from) slot--;
			const end = firstSlotFrom(lattice, standing.to + lattice.ready.station.turnoverMinutes * 60);
			// One that is over before the first slot takes none.
			const last = end === 0 ? 0 : Math.max(end, slot + 1);
			for (let at = slot; at < last && at < lattice.at.length; at++) {
				const cell = lane.base + at;
				if (this.cells[cell] !== free) continue;
				this.cells[cell] = blocked;
				const unit = this.unitOfCell[cell] as number;
				this.freeIn[unit] = (this.freeIn[unit] as number) - 1;
			}
			const stretch = stretchAround(lattice.ready.stretches, standing.from, standing.to);
			if (stretch) this.#countSession(lane.sessions + lattice.ready.stretches.indexOf(stretch), 1);
		}
	}

	#countSession(session: number, change: number): void {
		const before = this.bookedIn[session] as number;
		this.bookedIn[session] = before + change;
		if (before === 0 && change > 0) this.sessionsUsed++;
		if (before + change === 0 && change < 0) this.sessionsUsed--;
	}

	kindOf(person: number): Kind {
		return this.instance.kinds[this.instance.kindOf[person] as number] as Kind;
	}

	nextOf(kind: Kind, station: number): Int32Array {
		return (this.instance.next[station] as readonly Int32Array[])[kind.duration] as Int32Array;
	}

	/** True when somebody of a kind may start in a cell of a lane now: within the window, the cells free, few enough away. */
	fits(kind: Kind, laneIndex: number, cell: number): boolean {
		const lane = this.lanes[laneIndex] as Lane;
		const slot = cell - lane.base;
		const window = kind.windows[lane.station];
		if (!window || !isAllowed(window, this.unitRun[this.unitOfCell[cell] as number] as number, slot)) return false;
		const end = lane.base + (this.nextOf(kind, lane.station)[slot] as number);
		for (let at = cell; at < end; at++) if (this.cells[at] !== free) return false;
		return this.tally.hasRoom(kind, lane.station, slot);
	}

	/** Books a person who is not booked; the caller has asked `fits`. */
	place(person: number, laneIndex: number, cell: number): void {
		this.effort++;
		const kind = this.kindOf(person);
		const lane = this.lanes[laneIndex] as Lane;
		const slot = cell - lane.base;
		const end = lane.base + (this.nextOf(kind, lane.station)[slot] as number);
		for (let at = cell; at < end; at++) {
			this.cells[at] = person;
			const unit = this.unitOfCell[at] as number;
			this.freeIn[unit] = (this.freeIn[unit] as number) - 1;
		}
		this.cellOf[person] = cell;
		this.endOf[person] = end;
		this.laneOf[person] = laneIndex;
		const session = this.sessionAt(kind, lane, cell);
		this.sessionOf[person] = session;
		this.#countSession(session, 1);
		this.tally.add(kind, lane.station, slot, 1);
		this.booked++;
		this.#journal.push(person, laneIndex, cell);
	}

	/** Takes a booked person off the board. */
	remove(person: number): void {
		this.effort++;
		this.#journal.push(-1 - person, this.laneOf[person] as number, this.cellOf[person] as number);
		const lane = this.lanes[this.laneOf[person] as number] as Lane;
		const cell = this.cellOf[person] as number;
		const end = this.endOf[person] as number;
		for (let at = cell; at < end; at++) {
			this.cells[at] = free;
			const unit = this.unitOfCell[at] as number;
			this.freeIn[unit] = (this.freeIn[unit] as number) + 1;
		}
		this.#countSession(this.sessionOf[person] as number, -1);
		this.tally.add(this.kindOf(person), lane.station, cell - lane.base, -1);
		this.cellOf[person] = -1;
		this.endOf[person] = -1;
		this.laneOf[person] = -1;
		this.sessionOf[person] = -1;
		this.booked--;
	}

	/** A moment to which `undoTo` can lead back. */
	get moment(): number {
		return this.#journal.length;
	}

	/** Undoes everything since a moment. */
	undoTo(moment: number): void {
		while (this.#journal.length > moment) {
			const cell = this.#journal.pop() as number;
			const lane = this.#journal.pop() as number;
			const who = this.#journal.pop() as number;
			if (who >= 0) this.remove(who);
			else this.place(-1 - who, lane, cell);
			this.#journal.length -= 3;
		}
	}

	/** Forgets how to go back; called where nothing will be undone. */
	forget(): void {
		this.#journal.length = 0;
	}

	/** The session of a booking of a kind that starts in a cell. */
	sessionAt(kind: Kind, lane: Lane, cell: number): number {
		const lattice = this.instance.lattices[lane.station] as Instance['lattices'][number];
		const run = this.unitRun[this.unitOfCell[cell] as number] as number;
		const stretches = lattice.runs[run]?.stretches ?? [];
		const from = lattice.at[cell - lane.base] as number;
		const stretch = stretches.length === 1 ? stretches[0] : stretchAround(stretches, from, from + kind.minutes * 60);
		return lane.sessions + lattice.ready.stretches.indexOf(stretch as (typeof stretches)[number]);
	}

	/** The unit of a booked person. */
	unitOf(person: number): number {
		return this.unitOfCell[this.cellOf[person] as number] as number;
	}
}

function longestStep({ lattices }: Instance): number {
	let longest = 60;
	for (const { at, runFirst } of lattices) {
		for (let run = 0; run + 1 < runFirst.length; run++) {
			for (let slot = (runFirst[run] as number) + 1; slot < (runFirst[run + 1] as number); slot++) {
				longest = Math.max(longest, (at[slot] as number) - (at[slot - 1] as number));
			}
		}
	}
	return longest;
}

function longestOf(next: Int32Array, least: number): number {
	let most = least;
	for (let slot = 0; slot < next.length; slot++) most = Math.max(most, (next[slot] as number) - slot);
	return most;
}

/** True when a slot of a run lies in a window. */
export function isAllowed(window: Window, run: number, slot: number): boolean {
	const to = window.first[run + 1] as number;
	for (let index = window.first[run] as number; index < to; index++) {
		if (slot < (window.lo[index] as number)) return false;
		if (slot <= (window.hi[index] as number)) return true;
	}
	return false;
}
