import type { Board, Lane } from './board';
import type { Instance } from './instance';
import { slotName } from './lattice';
import type { PlannedBooking } from './validity';

/** The bookings that a board holds, those that stand left out. */
export function bookingsOf(board: Board): PlannedBooking[] {
	return board.instance.people.flatMap((person, index) => {
		const laneIndex = board.laneOf[index] as number;
		if (laneIndex < 0) return [];
		const lane = board.lanes[laneIndex] as Lane;
		const lattice = board.instance.lattices[lane.station] as Instance['lattices'][number];
		const start = slotName(lattice, (board.cellOf[index] as number) - lane.base);
		const { minutes } = board.kindOf(index);
		return [{ person: person.id, station: lattice.ready.station.id, lane: lane.number, start, minutes }];
	});
}
