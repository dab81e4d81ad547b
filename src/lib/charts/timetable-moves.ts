import type { Timetable, TimetableBooking } from './timetable';

/** Where a booking stands, or would: a lane of a station, and minutes after midnight of the timetable's date. */
export interface Spot {
	readonly station: string;
	readonly lane: number;
	readonly start: number;
}

/** The ways in which a key moves a booking: along time, or to the lane beside. */
export type Step = 'earlier' | 'later' | 'lane-before' | 'lane-after';

type Day = Pick<Timetable<TimetableBooking>, 'from' | 'to' | 'columns'>;

/** True for a time on the grid, which begins anew at each midnight. */
export function isOnGrid(minute: number, gridMinutes: number): boolean {
	return (((minute % 1440) + 1440) % 1440) % gridMinutes === 0;
}

/** The time on the grid that is nearest, the earlier of two. */
export function nearestOnGrid(minute: number, gridMinutes: number): number {
	const whole = Math.round(minute);
	for (let off = 0; off <= gridMinutes; off++) {
		if (isOnGrid(whole - off, gridMinutes)) return whole - off;
		if (isOnGrid(whole + off, gridMinutes)) return whole + off;
	}
	return whole;
}

/** The place of a spot's lane among the columns; -1 where it has none. */
export function columnOf(day: Day, spot: Pick<Spot, 'station' | 'lane'>): number {
	return day.columns.findIndex((column) => column.station.id === spot.station && column.lane === spot.lane);
}

/** A spot one step on, never beyond the hours or the lanes that are drawn: there it stays where it is. */
export function stepped(day: Day, spot: Spot, minutes: number, gridMinutes: number, step: Step): Spot {
	if (step === 'earlier' || step === 'later') {
		const way = step === 'later' ? 1 : -1;
		let start = spot.start + way;
		while (!isOnGrid(start, gridMinutes)) start += way;
		return isDrawn(day, start, minutes) ? { ...spot, start } : spot;
	}
	const column = day.columns[columnOf(day, spot) + (step === 'lane-after' ? 1 : -1)];
	return column ? { ...spot, station: column.station.id, lane: column.lane } : spot;
}

/** The spot at a height of a column, `share` of its length from the top; undefined for a column that is not there. */
export function spotAt(day: Day, place: number, share: number, minutes: number, gridMinutes: number): Spot | undefined {
	const column = day.columns[place];
	if (!column) return undefined;
	const wanted = day.from + share * (day.to - day.from);
	const bounded = Math.min(Math.max(wanted, day.from), Math.max(day.from, day.to - minutes));
	return { station: column.station.id, lane: column.lane, start: nearestOnGrid(bounded, gridMinutes) };
}

/** The next spot of the same lane, earlier or later, that `fits`; undefined where none does. */
export function nextFitting(
	day: Day,
	spot: Spot,
	minutes: number,
	gridMinutes: number,
	step: 'earlier' | 'later',
	fits: (spot: Spot) => boolean
): Spot | undefined {
	let at = spot;
	for (;;) {
		const next = stepped(day, at, minutes, gridMinutes, step);
		if (next === at) return undefined;
		if (fits(next)) return next;
		at = next;
	}
}

/** Every start of a lane that `fits`, in the order of time. */
export function fittingStarts(
	day: Day,
	lane: Pick<Spot, 'station' | 'lane'>,
	minutes: number,
	gridMinutes: number,
	fits: (spot: Spot) => boolean
): number[] {
	const starts: number[] = [];
	for (let start = day.from; isDrawn(day, start, minutes); start++) {
		if (isOnGrid(start, gridMinutes) && fits({ station: lane.station, lane: lane.lane, start })) starts.push(start);
	}
	return starts;
}

function isDrawn(day: Day, start: number, minutes: number): boolean {
	return day.from <= start && start + minutes <= day.to;
}
