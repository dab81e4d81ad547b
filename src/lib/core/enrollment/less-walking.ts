import type { Board, Lane } from './board';
import { UnitView } from './pushing';
import { gapIn, someUnit } from './rooms';

/**
 * Fewer minutes walked in the sessions that are in use: somebody moves to a nearer station, into free time or in exchange with
 * someone to whom it matters less. Every step makes the sum smaller, so it ends. Cost of a pass: for each person who could walk
 * less, the bookings at nearer stations.
 */
export function walkLess(board: Board, isOver: () => boolean): void {
	for (let isLess = true; isLess && !isOver();) {
		isLess = false;
		for (let person = 0; person < board.instance.people.length; person++) {
			if (isOver()) return;
			if ((board.cellOf[person] as number) < 0) continue;
			if (moveNearer(board, person)) isLess = true;
		}
		board.forget();
	}
}

function walkNow(board: Board, person: number): number {
	const { station } = board.lanes[board.laneOf[person] as number] as Lane;
	return board.kindOf(person).walks[station] as number;
}

function isInUse(board: Board, unit: number): boolean {
	const lane = board.lanes[board.unitLane[unit] as number] as Lane;
	const session = lane.sessions + (board.unitRun[unit] as number);
	return (board.bookedIn[session] as number) > 0;
}

export function moveNearer(board: Board, person: number): boolean {
	const kind = board.kindOf(person);
	const now = walkNow(board, person);
	const nearest = kind.walks.reduce(
		(least, walk, station) => (kind.windows[station] ? Math.min(least, walk) : least),
		now
	);
	if (nearest >= now) return false;
	const units: number[] = [];
	someUnit(board, kind, 0, (unit) => {
		const { station } = board.lanes[board.unitLane[unit] as number] as Lane;
		if ((kind.walks[station] as number) < now && isInUse(board, unit)) units.push(unit);
		return false;
	});
	const before = board.moment;
	const [lane, cell] = [board.laneOf[person] as number, board.cellOf[person] as number];
	const sessions = board.sessionsUsed;
	board.remove(person);
	for (const unit of units) {
		const at = (board.freeIn[unit] as number) > 0 ? gapIn(board, kind, unit) : -1;
		if (at >= 0) board.place(person, board.unitLane[unit] as number, at);
		if (at >= 0 || pushInto(board, person, unit)) {
			if (board.sessionsUsed <= sessions) return true;
			board.undoTo(before);
			board.remove(person);
		}
	}
	for (const unit of units) if (exchange(board, person, unit, now, { lane, cell })) return true;
	board.undoTo(before);
	return false;
}

function pushInto(board: Board, person: number, unit: number): boolean {
	if ((board.freeIn[unit] as number) === 0) return false;
	const view = new UnitView(board, unit);
	const at = view.findInsertion(board.kindOf(person));
	return at >= 0 && view.insert(person, at, at);
}

/** Puts a person, just taken off, in somebody's place in a unit, and that one where the person was, if both together walk less. */
function exchange(
	board: Board,
	person: number,
	unit: number,
	now: number,
	old: { lane: number; cell: number }
): boolean {
	const kind = board.kindOf(person);
	const { station } = board.lanes[board.unitLane[unit] as number] as Lane;
	const gain = now - (kind.walks[station] as number);
	const oldStation = (board.lanes[old.lane] as Lane).station;
	const oldUnit = board.unitOfCell[old.cell] as number;
	const view = new UnitView(board, unit);
	for (const [index, other] of view.people.entries()) {
		if (other < 0) continue;
		const its = board.kindOf(other);
		if (!its.windows[oldStation]) continue;
		const loss = (its.walks[oldStation] as number) - (its.walks[station] as number);
		if (loss >= gain || view.slotBetween(kind, index, index + 1) < 0) continue;
		const before = board.moment;
		if (!view.insert(person, index, index + 1)) continue;
		if (board.fits(its, old.lane, old.cell)) {
			board.place(other, old.lane, old.cell);
			return true;
		}
		const at = gapIn(board, its, oldUnit);
		if (at >= 0) board.place(other, old.lane, at);
		if (at >= 0 || pushInto(board, other, oldUnit)) return true;
		board.undoTo(before);
	}
	return false;
}
