import { wallTimeOf } from '../../calendar/local-date-time';
import type { Board, Lane } from '../board';
import { firstSlotFrom } from '../lattice';
import type { PlannedBooking } from '../validity';

/** Where a booking of the plan before stands on a board. */
export interface Spot {
	readonly person: number;
	readonly lane: number;
	readonly cell: number;
}

/** Where the booking of a person stands on a board; undefined where the board has no such place, or no such person to book. */
export function spotOf(board: Board, booking: PlannedBooking): Spot | undefined {
	const { model, lattices } = board.instance;
	const person = placesOfPeople(board).get(booking.person);
	const lane = board.lanes.findIndex(
		({ station, number }) => model.stations[station]?.station.id === booking.station && number === booking.lane
	);
	if (person === undefined || lane < 0) return undefined;
	const { station, base } = board.lanes[lane] as Lane;
	const at = model.zone.instantOf(wallTimeOf(booking.start));
	const lattice = lattices[station];
	if (!lattice) return undefined;
	const slot = firstSlotFrom(lattice, at);
	return lattice.at[slot] === at ? { person, lane, cell: base + slot } : undefined;
}

const placesByBoard = new WeakMap<Board, ReadonlyMap<string, number>>();

/** The place of each person to book, by id. */
function placesOfPeople(board: Board): ReadonlyMap<string, number> {
	const known = placesByBoard.get(board);
	if (known) return known;
	const places = new Map(board.instance.people.map(({ id }, place) => [id, place]));
	placesByBoard.set(board, places);
	return places;
}

/** The places that people had before, on a board on which they may be moved. */
export class Shelf {
	readonly #board: Board;
	readonly #spots: Spot[] = [];

	constructor(board: Board) {
		this.#board = board;
	}

	/** Puts a booking on the board; undefined where there is no place for it there, and it is left out. */
	put(booking: PlannedBooking): Spot | undefined {
		const spot = spotOf(this.#board, booking);
		const board = this.#board;
		if (!spot || !board.fits(board.kindOf(spot.person), spot.lane, spot.cell)) return undefined;
		board.place(spot.person, spot.lane, spot.cell);
		this.#spots.push(spot);
		return spot;
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
}
