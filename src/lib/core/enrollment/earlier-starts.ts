import type { Board, Lane } from './board';
import { peopleIn } from './fewer-sessions';
import { tryMoves } from './pushing';
import { earliestAllowed, gapIn, someUnit } from './rooms';
import type { Window } from './windows';

/**
 * Earlier starts, with the same people in no more sessions and nobody walking longer: bookings close up to the left, the
 * shorter of two neighbors goes first, people move into earlier free time, and a session moves as a whole to an earlier stretch of
 * its station. Every step makes the sum of starts smaller, so it ends.
 */
export function startEarlier(board: Board, isOver: () => boolean): void {
	for (let isEarlier = true; isEarlier && !isOver();) {
		isEarlier = false;
		for (let unit = 0; unit < board.unitLane.length; unit++) {
			if (isOver()) return;
			if (moveSession(board, unit)) isEarlier = true;
			if (closeUp(board, unit)) isEarlier = true;
			if (shorterFirst(board, unit)) isEarlier = true;
		}
		for (let person = 0; person < board.instance.people.length; person++) {
			if (isOver()) return;
			if ((board.cellOf[person] as number) >= 0 && moveEarlier(board, person)) isEarlier = true;
		}
		board.forget();
	}
}

function stationOf(board: Board, laneIndex: number): number {
	return (board.lanes[laneIndex] as Lane).station;
}

function instantOf(board: Board, laneIndex: number, cell: number): number {
	const lane = board.lanes[laneIndex] as Lane;
	return board.instance.lattices[lane.station]?.at[cell - lane.base] as number;
}

export function closeUp(board: Board, unit: number): boolean {
	let isEarlier = false;
	for (const person of peopleIn(board, unit)) {
		const [lane, cell] = [board.laneOf[person] as number, board.cellOf[person] as number];
		const kind = board.kindOf(person);
		board.remove(person);
		const at = gapIn(board, kind, unit);
		if (at >= 0 && at < cell) isEarlier = true;
		board.place(person, lane, at >= 0 && at < cell ? at : cell);
	}
	return isEarlier;
}

/** Exchanges neighbors where the later one is shorter and both windows allow it. */
export function shorterFirst(board: Board, unit: number): boolean {
	const people = peopleIn(board, unit);
	let isEarlier = false;
	for (let index = 0; index + 1 < people.length; index++) {
		const [a, b] = [people[index] as number, people[index + 1] as number];
		const [lane, run] = [board.laneOf[a] as number, board.unitRun[unit] as number];
		const { base, station } = board.lanes[lane] as Lane;
		const [kindA, kindB] = [board.kindOf(a), board.kindOf(b)];
		const [from, then] = [board.cellOf[a] as number, board.cellOf[b] as number];
		const first = earliestAllowed(kindB.windows[station] as Window, run, from - base);
		if (first < 0) continue;
		const end = board.nextOf(kindB, station)[first] as number;
		const second = earliestAllowed(kindA.windows[station] as Window, run, end);
		if (second < 0 || first + second >= from + then - 2 * base) continue;
		if (
			!tryMoves(board, lane, [
				[b, base + first],
				[a, base + second]
			])
		)
			continue;
		people[index] = b;
		people[index + 1] = a;
		isEarlier = true;
	}
	return isEarlier;
}

export function moveEarlier(board: Board, person: number): boolean {
	const kind = board.kindOf(person);
	const [lane, cell] = [board.laneOf[person] as number, board.cellOf[person] as number];
	const [now, walk] = [instantOf(board, lane, cell), kind.walks[stationOf(board, lane)] as number];
	let best: { lane: number; cell: number; at: number } | undefined;
	const sessions = board.sessionsUsed;
	const before = board.moment;
	board.remove(person);
	someUnit(board, kind, 0, (unit) => {
		const other = board.unitLane[unit] as number;
		if ((board.freeIn[unit] as number) === 0 || (kind.walks[stationOf(board, other)] as number) > walk) return false;
		const { sessions: first } = board.lanes[other] as Lane;
		if ((board.bookedIn[first + (board.unitRun[unit] as number)] as number) === 0) return false;
		if (instantOf(board, other, board.unitFrom[unit] as number) >= (best?.at ?? now)) return false;
		const found = gapIn(board, kind, unit);
		if (found < 0) return false;
		const at = instantOf(board, other, found);
		if (at < (best?.at ?? now)) best = { lane: other, cell: found, at };
		return false;
	});
	if (best) {
		board.place(person, best.lane, best.cell);
		if (board.sessionsUsed <= sessions) return true;
	}
	board.undoTo(before);
	return false;
}

/** Moves all people of a unit to an earlier, unused unit of a station that is no farther for any of them. */
function moveSession(board: Board, unit: number): boolean {
	const people = peopleIn(board, unit);
	const laneIndex = board.unitLane[unit] as number;
	const first = people[0];
	if (first === undefined || board.cells.subarray(board.unitFrom[unit], board.unitTo[unit]).includes(-2)) return false;
	const { station } = board.lanes[laneIndex] as Lane;
	const window = board.kindOf(first).windows[station] as Window;
	const begin = instantOf(board, laneIndex, board.unitFrom[unit] as number);
	const sum = (): number =>
		people.reduce(
			(total, person) => total + instantOf(board, board.laneOf[person] as number, board.cellOf[person] as number),
			0
		);
	const now = sum();
	const sessions = board.sessionsUsed;
	const before = board.moment;
	for (const run of window.runs) {
		for (let lane = board.laneFirst[station] as number; lane < (board.laneFirst[station + 1] as number); lane++) {
			const other = (board.lanes[lane] as Lane).units + run;
			if (instantOf(board, lane, board.unitFrom[other] as number) >= begin) return false;
			if (peopleIn(board, other).length > 0) continue;
			for (const person of people) board.remove(person);
			const isMoved = people.every((person) => {
				const cell = gapIn(board, board.kindOf(person), other);
				if (cell >= 0) board.place(person, lane, cell);
				return cell >= 0;
			});
			if (isMoved && board.sessionsUsed <= sessions && sum() < now) return true;
			board.undoTo(before);
		}
	}
	return false;
}
