import { type EpochDay, epochDayOf } from '../../calendar/local-date';
import { wallTimeOf } from '../../calendar/local-date-time';
import type { Person, Rollout } from '../../document/schema';
import { Board, type Lane } from '../board';
import { type Instance, instanceOf } from '../instance';
import { firstSlotFrom } from '../lattice';
import { EnrollmentModel } from '../model';
import type { PlannedBooking } from '../validity';

/** One open stretch of one lane, or stretches of it that overlap: its appointments are met one after the other. */
export interface Desk {
	readonly unit: number;
	readonly lane: number;
	/** Date on which it opens. */
	readonly day: EpochDay;
	/** Turnover in seconds. */
	readonly turnover: number;
	/** People of the starting plan, by start. */
	readonly people: Int32Array;
}

/** What every run of a forecast shares. People are places in `people`; instants and times are in seconds. */
export interface ForecastPuzzle {
	/** Of the document, with its due dates. */
	readonly model: EnrollmentModel;
	/** Of the document without due dates: who misses theirs is enrolled later, and counts as late. */
	readonly board: Board;
	readonly people: readonly Person[];
	/** Days with a desk, ascending, and the desks of each. */
	readonly days: readonly EpochDay[];
	readonly desksOfDay: readonly (readonly Desk[])[];
	readonly deskOfUnit: ReadonlyMap<number, Desk>;
	readonly dayOfUnit: Int32Array;
	/** The instant by which each person must be enrolled; infinite for no limit. */
	readonly deadlineOf: Float64Array;
	/** People without a place in the starting plan. */
	readonly waiting: readonly number[];
}

/** Lays a starting plan out; a booking of somebody who is not to be enrolled is left out. */
export function forecastPuzzle(model: EnrollmentModel, plan: readonly PlannedBooking[]): ForecastPuzzle {
	const board = new Board(instanceOf(new EnrollmentModel(withoutDueDates(model.rollout)), noFixed, 'strict'));
	const { people } = board.instance;
	const placeOf = new Map(people.map((person, place) => [person.id, place]));
	for (const booking of plan) {
		const person = placeOf.get(booking.person);
		if (person === undefined) continue;
		const at = cellOf(board, booking);
		if (at && board.fits(board.kindOf(person), at.lane, at.cell)) board.place(person, at.lane, at.cell);
	}
	board.forget();
	const desks = desksOf(board);
	const days = [...new Set(desks.map(({ day }) => day))].sort((a, b) => a - b);
	const desksOfDay = days.map((day) => desks.filter((desk) => desk.day === day));
	const dayOfUnit = new Int32Array(board.unitLane.length);
	desksOfDay.forEach((list, place) => list.forEach(({ unit }) => (dayOfUnit[unit] = place)));
	return {
		model,
		board,
		people,
		days,
		desksOfDay,
		deskOfUnit: new Map(desks.map((desk) => [desk.unit, desk])),
		dayOfUnit,
		deadlineOf: Float64Array.from(people, (person) => {
			const enrollBy = model.enrollByOf(person);
			return enrollBy === null ? Infinity : model.endOf(enrollBy);
		}),
		waiting: [...people.keys()].filter((person) => (board.cellOf[person] as number) < 0)
	};
}

const noFixed = { valid: [], broken: [] };

function withoutDueDates(rollout: Rollout): Rollout {
	const waves = rollout.enrollment.waves.map((wave) => ({ ...wave, enrollBy: null }));
	return { ...rollout, enrollment: { ...rollout.enrollment, waves, bookings: [] } };
}

function cellOf(board: Board, booking: PlannedBooking): { lane: number; cell: number } | undefined {
	const { model, lattices } = board.instance;
	const lane = board.lanes.findIndex(
		({ station, number }) => model.stations[station]?.station.id === booking.station && number === booking.lane
	);
	if (lane < 0) return undefined;
	const { station, base } = board.lanes[lane] as Lane;
	const lattice = lattices[station] as Instance['lattices'][number];
	const at = model.zone.instantOf(wallTimeOf(booking.start));
	const slot = firstSlotFrom(lattice, at);
	return lattice.at[slot] === at ? { lane, cell: base + slot } : undefined;
}

function desksOf(board: Board): Desk[] {
	const peopleByUnit = new Map<number, number[]>();
	board.cellOf.forEach((cell, person) => {
		if (cell < 0) return;
		const unit = board.unitOfCell[cell] as number;
		const list = peopleByUnit.get(unit) ?? [];
		list.push(person);
		peopleByUnit.set(unit, list);
	});
	return [...board.unitLane.keys()].map((unit) => {
		const laneIndex = board.unitLane[unit] as number;
		const lattice = board.instance.lattices[(board.lanes[laneIndex] as Lane).station] as Instance['lattices'][number];
		const run = lattice.runs[board.unitRun[unit] as number];
		const people = peopleByUnit.get(unit) ?? [];
		people.sort((a, b) => (board.cellOf[a] as number) - (board.cellOf[b] as number));
		return {
			unit,
			lane: laneIndex,
			day: epochDayOf(run?.stretches[0]?.date as never),
			turnover: lattice.ready.station.turnoverMinutes * 60,
			people: Int32Array.from(people)
		};
	});
}
