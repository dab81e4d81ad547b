import { Board, type Lane } from '../../src/lib/core/enrollment/board';
import { fixedBookings } from '../../src/lib/core/enrollment/fixed';
import { instanceOf } from '../../src/lib/core/enrollment/instance';
import { EnrollmentModel } from '../../src/lib/core/enrollment/model';
import { bookingsOf } from '../../src/lib/core/enrollment/board-bookings';
import { gapIn, someUnit } from '../../src/lib/core/enrollment/rooms';
import type { PlannedBooking } from '../../src/lib/core/enrollment/validity';
import type { Rollout } from '../../src/lib/core/document/schema';

/**
 * Plans as people make them by hand: one after the other, each at the earliest time that is still free; in the order of the list,
 * or the earliest due date first.
 */
export function planOneByOne(rollout: Rollout, order: 'first-come' | 'earliest-due'): PlannedBooking[] {
	const model = new EnrollmentModel(rollout);
	const board = new Board(instanceOf(model, fixedBookings(model), 'strict'));
	const people = [...board.instance.people.keys()];
	if (order === 'earliest-due') people.sort((a, b) => board.kindOf(a).rank - board.kindOf(b).rank || a - b);
	for (const person of people) {
		const kind = board.kindOf(person);
		let best: { lane: number; cell: number; at: number } | undefined;
		someUnit(board, kind, 0, (unit) => {
			if ((board.freeIn[unit] as number) === 0) return false;
			const laneIndex = board.unitLane[unit] as number;
			const lane = board.lanes[laneIndex] as Lane;
			const cell = gapIn(board, kind, unit);
			const at = cell < 0 ? Infinity : (board.instance.lattices[lane.station]?.at[cell - lane.base] ?? Infinity);
			if (at < (best?.at ?? Infinity)) best = { lane: laneIndex, cell, at };
			return false;
		});
		if (best) board.place(person, best.lane, best.cell);
	}
	return bookingsOf(board);
}
