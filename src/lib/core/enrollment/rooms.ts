import type { Board, Lane } from './board';
import type { Kind } from './instance';
import type { Window } from './windows';

/** Finding room for one person on a board as it is; nothing here moves anybody. Cells and slots as in `Board`. */

/** The first slot of a run, at or after `from`, that a window allows; -1 when there is none. */
export function earliestAllowed(window: Window, run: number, from: number): number {
	const to = window.first[run + 1] as number;
	for (let index = window.first[run] as number; index < to; index++) {
		if (from <= (window.hi[index] as number)) return Math.max(from, window.lo[index] as number);
	}
	return -1;
}

/** The last slot of a run that a window allows and whose booking leaves the lane by `limit`; -1 when there is none. */
export function latestAllowed(window: Window, run: number, next: Int32Array, limit: number): number {
	const first = window.first[run] as number;
	for (let index = (window.first[run + 1] as number) - 1; index >= first; index--) {
		const lo = window.lo[index] as number;
		let slot = Math.min(window.hi[index] as number, limit - 1);
		while (slot >= lo && (next[slot] as number) > limit) slot--;
		if (slot >= lo) return slot;
	}
	return -1;
}

/** The first cell of a unit in which somebody of a kind fits as it stands; -1 when there is none. */
export function gapIn(board: Board, kind: Kind, unit: number): number {
	board.effort++;
	const lane = board.lanes[board.unitLane[unit] as number] as Lane;
	const window = kind.windows[lane.station];
	if (!window) return -1;
	const run = board.unitRun[unit] as number;
	const next = board.nextOf(kind, lane.station);
	const { cells, endOf } = board;
	for (let slot = earliestAllowed(window, run, 0); slot >= 0; slot = earliestAllowed(window, run, slot)) {
		const cell = lane.base + slot;
		const end = lane.base + (next[slot] as number);
		let at = end - 1;
		while (at >= cell && (cells[at] as number) === -1) at--;
		if (at < cell) {
			if (board.tally.hasRoom(kind, lane.station, slot)) return cell;
			slot++;
		} else {
			const holder = cells[at] as number;
			slot = (holder >= 0 ? (endOf[holder] as number) : at + 1) - lane.base;
		}
	}
	return -1;
}

/** Where a person may go: a lane and the cell of the start. */
export interface Place {
	readonly lane: number;
	readonly cell: number;
}

/**
 * Visits the units in which a kind has a window, station by station, until the visitor returns true; `turn` rotates the order so
 * that not everybody tries the same unit first.
 */
export function someUnit(board: Board, kind: Kind, turn: number, visit: (unit: number) => boolean): boolean {
	const stations = kind.windows.length;
	for (let step = 0; step < stations; step++) {
		const station = (step + turn) % stations;
		const window = kind.windows[station];
		if (!window) continue;
		const last = board.laneFirst[station + 1] as number;
		for (const run of window.runs) {
			for (let lane = board.laneFirst[station] as number; lane < last; lane++) {
				if (visit((board.lanes[lane] as Lane).units + run)) return true;
			}
		}
	}
	return false;
}

/** A free place for a kind among the units that may be used; undefined when there is none. */
export function findGap(board: Board, kind: Kind, turn: number, usable: Uint8Array): Place | undefined {
	let found: Place | undefined;
	const least = board.leastCells(kind);
	someUnit(board, kind, turn, (unit) => {
		if ((board.freeIn[unit] as number) < least || usable[unit] === 0) return false;
		const cell = gapIn(board, kind, unit);
		if (cell < 0) return false;
		found = { lane: board.unitLane[unit] as number, cell };
		return true;
	});
	return found;
}

/**
 * The cell in which somebody of a kind would fit if the person in `holder`'s place were gone: between the booking before and the
 * one after. -1 when there is none, also when too many of the department would be away.
 */
export function cellInPlaceOf(board: Board, kind: Kind, holder: number): number {
	board.effort++;
	const laneIndex = board.laneOf[holder] as number;
	const lane = board.lanes[laneIndex] as Lane;
	const window = kind.windows[lane.station];
	if (!window) return -1;
	const { cells } = board;
	const unit = board.unitOf(holder);
	const run = board.unitRun[unit] as number;
	let begin = board.cellOf[holder] as number;
	let end = board.endOf[holder] as number;
	const from = board.unitFrom[unit] as number;
	const laneEnd = lane.base + (board.instance.lattices[lane.station] as { at: Float64Array }).at.length;
	while (begin > from && cells[begin - 1] === -1) begin--;
	const next = board.nextOf(kind, lane.station);
	while (end < laneEnd && cells[end] === -1) end++;
	for (
		let slot = earliestAllowed(window, run, begin - lane.base);
		slot >= 0;
		slot = earliestAllowed(window, run, slot + 1)
	) {
		if (lane.base + (next[slot] as number) > end) return -1;
		if (hasRoomWithout(board, kind, lane.station, slot, holder)) return lane.base + slot;
	}
	return -1;
}

function hasRoomWithout(board: Board, kind: Kind, station: number, slot: number, holder: number): boolean {
	if (kind.limit < 0) return true;
	const held = board.kindOf(holder);
	if (held.limit !== kind.limit) return board.tally.hasRoom(kind, station, slot);
	const heldSlot = (board.cellOf[holder] as number) - (board.lanes[board.laneOf[holder] as number] as Lane).base;
	board.tally.add(held, station, heldSlot, -1);
	const hasRoom = board.tally.hasRoom(kind, station, slot);
	board.tally.add(held, station, heldSlot, 1);
	return hasRoom;
}
