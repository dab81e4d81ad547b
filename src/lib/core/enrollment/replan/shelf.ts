import { wallTimeOf } from '../../calendar/local-date-time';
import type { Board, Lane } from '../board';
import { firstSlotFrom } from '../lattice';
import type { PlannedBooking } from '../validity';

/** Where a booking of the plan before stands on a board. */
interface Spot {
	readonly person: number;
	readonly lane: number;
	readonly cell: number;
}

/** The places that people had before, on a board on which they may be moved. */
export class Shelf {
	readonly #board: Board;
	readonly #spots: Spot[] = [];

	constructor(board: Board) {
		this.#board = board;
	}

	/** Puts a booking on the board; one for which there is no place there is left out. */
	put(booking: PlannedBooking): void {
		const spot = this.#spotOf(booking);
		const board = this.#board;
		if (!spot || !board.fits(board.kindOf(spot.person), spot.lane, spot.cell)) return;
		board.place(spot.person, spot.lane, spot.cell);
		this.#spots.push(spot);
	}

	/** Moves people back to where they were, wherever that is free again, until nobody more can go back. */
	putBack(): void {
		const board = this.#board;
		for (let isChanged = true; isChanged;) {
			isChanged = false;
			for (const { person, lane, cell } of this.#spots) {
				if (board.cellOf[person] === cell && board.laneOf[person] === lane) continue;
				const moment = board.moment;
				board.remove(person);
				if (board.fits(board.kindOf(person), lane, cell)) {
					board.place(person, lane, cell);
					isChanged = true;
				} else board.undoTo(moment);
			}
		}
	}

	#spotOf(booking: PlannedBooking): Spot | undefined {
		const { people, model, lattices } = this.#board.instance;
		const person = people.findIndex(({ id }) => id === booking.person);
		const lane = this.#board.lanes.findIndex(
			({ station, number }) => model.stations[station]?.station.id === booking.station && number === booking.lane
		);
		if (person < 0 || lane < 0) return undefined;
		const { station, base } = this.#board.lanes[lane] as Lane;
		const at = model.zone.instantOf(wallTimeOf(booking.start));
		const lattice = lattices[station];
		if (!lattice) return undefined;
		const slot = firstSlotFrom(lattice, at);
		return lattice.at[slot] === at ? { person, lane, cell: base + slot } : undefined;
	}
}
