import { type Board, type Lane, free } from './board';
import type { Instance, Kind } from './instance';
import { Urgency } from './urgency';

/**
 * The first plan: lanes are filled in the order of time, each time with somebody of the kind that has the fewest chances left.
 *
 * A kind's chances after a moment are the slots of its windows still to come, each run weighted by how little it is asked for; so
 * people whom only the night shift's stations can serve go first there, and people who can come any day wait. Invariant: a lane
 * is passed once from left to right, so no gap is left that somebody waiting could have taken. Cost: slots times
 * the kinds looked at. Our own; a least-slack dispatching rule, common practice in scheduling.
 */
export function dispatch(board: Board, usable: Uint8Array, isOver: () => boolean): void {
	const { instance } = board;
	const urgency = new Urgency(instance);
	const waiting = instance.kinds.map((kind) => kind.members.filter((member) => (board.cellOf[member] as number) < 0));
	const units = [...board.unitLane.keys()].filter((unit) => usable[unit] === 1);
	const startOf = (unit: number): number => {
		const lane = board.lanes[board.unitLane[unit] as number] as Lane;
		return instance.lattices[lane.station]?.runs[board.unitRun[unit] as number]?.from ?? 0;
	};
	units.sort((a, b) => startOf(a) - startOf(b) || a - b);
	// Lanes whose runs overlap in time are filled side by side, by the instant of the next free cell.
	let begin = 0;
	while (begin < units.length && !isOver()) {
		let end = begin;
		let until = -Infinity;
		while (end < units.length && (end === begin || startOf(units[end] as number) < until)) {
			until = Math.max(until, endOfRun(board, units[end] as number));
			end++;
		}
		fillTogether(board, units.slice(begin, end), urgency, waiting, isOver);
		begin = end;
	}
}

function endOfRun(board: Board, unit: number): number {
	const lane = board.lanes[board.unitLane[unit] as number] as Lane;
	return board.instance.lattices[lane.station]?.runs[board.unitRun[unit] as number]?.to ?? 0;
}

/** A unit being filled: where it is, and the kinds that may come, the one with the fewest chances left first. */
interface Head {
	readonly unit: number;
	cell: number;
	readonly list: KindList;
}

/** Kinds in order, shared by the lanes of a run; only the first `count` still count. */
interface KindList {
	readonly kinds: Int32Array;
	count: number;
}

/** How many kinds are looked at for one that leaves no unusable rest. */
const mostLookedAt = 60;

function fillTogether(
	board: Board,
	units: readonly number[],
	urgency: Urgency,
	waiting: number[][],
	isOver: () => boolean
): void {
	const { instance } = board;
	const listByRun = new Map<number, KindList>();
	const heads = units.map((unit): Head => {
		const lane = board.lanes[board.unitLane[unit] as number] as Lane;
		const key = runKey(lane.station, board.unitRun[unit] as number);
		let list = listByRun.get(key);
		if (!list) {
			const kinds = urgency.kindsIn(lane.station, board.unitRun[unit] as number, waiting);
			listByRun.set(key, (list = { kinds, count: kinds.length }));
		}
		return { unit, cell: board.unitFrom[unit] as number, list };
	});
	const instantOf = ({ unit, cell }: Head): number => {
		const lane = board.lanes[board.unitLane[unit] as number] as Lane;
		return instance.lattices[lane.station]?.at[cell - lane.base] ?? Infinity;
	};
	const queue = new TimeQueue();
	heads.forEach((head, index) => queue.push(instantOf(head), index));
	for (let index = queue.pop(), turn = 0; index !== undefined; index = queue.pop()) {
		if (++turn % 64 === 0 && isOver()) return;
		const head = heads[index] as Head;
		const kind = board.cells[head.cell] === free ? kindFor(board, head, waiting) : -1;
		if (kind >= 0) {
			const person = (waiting[kind] as number[]).pop() as number;
			board.place(person, board.unitLane[head.unit] as number, head.cell);
			head.cell = board.endOf[person] as number;
		} else head.cell++;
		if (head.cell < (board.unitTo[head.unit] as number)) queue.push(instantOf(head), index);
	}
}

/**
 * The kind that comes next in a unit: the first in order that fits, unless it would leave a rest that no booking fills and another
 * one soon after it would not. -1 when nobody fits.
 */
function kindFor(board: Board, head: Head, waiting: readonly number[][]): number {
	const { list, unit, cell } = head;
	const { kinds } = list;
	const laneIndex = board.unitLane[unit] as number;
	const lane = board.lanes[laneIndex] as Lane;
	const rest = (board.unitTo[unit] as number) - cell;
	let first = -1;
	let looked = 0;
	let gone = 0;
	for (let at = 0; at < list.count; at++) {
		const index = kinds[at] as number;
		if ((waiting[index] as number[]).length === 0) {
			gone++;
			continue;
		}
		const kind = board.instance.kinds[index] as Kind;
		if (!board.fits(kind, laneIndex, cell)) continue;
		if (first < 0) first = index;
		const length = (board.nextOf(kind, lane.station)[cell - lane.base] as number) - (cell - lane.base);
		if (isFillable(board, lane.station, rest - length)) {
			first = index;
			break;
		}
		if (++looked >= mostLookedAt) break;
	}
	if (gone > 32 && gone > list.count / 8) forgetGone(list, waiting);
	return first;
}

function forgetGone(list: KindList, waiting: readonly number[][]): void {
	let kept = 0;
	for (let at = 0; at < list.count; at++) {
		const index = list.kinds[at] as number;
		if ((waiting[index] as number[]).length > 0) list.kinds[kept++] = index;
	}
	list.count = kept;
}

/** True when so many cells at the end of a unit can be filled with bookings of some lengths. */
function isFillable(board: Board, station: number, rest: number): boolean {
	if (rest <= 0 || rest > 64) return true;
	const lengths = board.instance.durations.map((_, duration) => lengthOf(board.instance, station, duration));
	const sums = new Uint8Array(rest + 1);
	sums[0] = 1;
	for (let sum = 1; sum <= rest; sum++) {
		if (lengths.some((length) => length <= sum && sums[sum - length] === 1)) sums[sum] = 1;
	}
	return sums[rest] === 1;
}

function runKey(station: number, run: number): number {
	return station * 65536 + run;
}

function lengthOf(instance: Instance, station: number, duration: number): number {
	return instance.next[station]?.[duration]?.[0] ?? 1;
}

/** A heap of places by time, the smaller place first at equal times. */
class TimeQueue {
	readonly #times: number[] = [];
	readonly #places: number[] = [];

	push(time: number, place: number): void {
		let at = this.#times.length;
		this.#times.push(time);
		this.#places.push(place);
		while (at > 0) {
			const parent = (at - 1) >>> 1;
			if (!this.#isBefore(at, parent)) break;
			this.#swap(at, parent);
			at = parent;
		}
	}

	pop(): number | undefined {
		const first = this.#places[0];
		const time = this.#times.pop();
		const place = this.#places.pop();
		if (first === undefined || time === undefined || place === undefined) return undefined;
		if (this.#times.length === 0) return first;
		this.#times[0] = time;
		this.#places[0] = place;
		let at = 0;
		for (;;) {
			let least = at;
			for (const child of [2 * at + 1, 2 * at + 2]) {
				if (child < this.#times.length && this.#isBefore(child, least)) least = child;
			}
			if (least === at) return first;
			this.#swap(at, least);
			at = least;
		}
	}

	#isBefore(a: number, b: number): boolean {
		const [left, right] = [this.#times[a] as number, this.#times[b] as number];
		return left < right || (left === right && (this.#places[a] as number) < (this.#places[b] as number));
	}

	#swap(a: number, b: number): void {
		[this.#times[a], this.#times[b]] = [this.#times[b] as number, this.#times[a] as number];
		[this.#places[a], this.#places[b]] = [this.#places[b] as number, this.#places[a] as number];
	}
}
