import { readStretch } from '$lib/core/calendar/stretch';

/** A station on one date. */
export interface TimetableStation {
	readonly id: string;
	readonly name: string;
	readonly lanes: number;
	readonly turnoverMinutes: number;
	/** Its stretches of that date: `08:00-12:00`. */
	readonly open: readonly string[];
}

/** One person's time at a station. */
export interface TimetableBooking {
	readonly person: string;
	readonly name: string;
	readonly station: string;
	readonly lane: number;
	/** Minutes after midnight. */
	readonly start: number;
	readonly minutes: number;
	readonly isFixed: boolean;
}

export interface TimetableColumn<B extends TimetableBooking> {
	readonly station: TimetableStation;
	readonly lane: number;
	/** Minutes after midnight; beyond 1440 on the next date. */
	readonly open: readonly { readonly from: number; readonly to: number }[];
	/** By start. */
	readonly bookings: readonly B[];
}

export interface Timetable<B extends TimetableBooking> {
	/** Whole hours, in minutes after midnight. */
	readonly from: number;
	readonly to: number;
	readonly columns: readonly TimetableColumn<B>[];
	/** Shortest booking, in minutes; what the scale must keep legible. */
	readonly shortest: number;
}

/**
 * A day's stations as columns, one for each lane, over the hours in which any of them is open or anyone is booked. A
 * booking in a lane that its station does not have gets a column all the same: it must be seen to be mended.
 */
export function timetable<B extends TimetableBooking>(
	stations: readonly TimetableStation[],
	bookings: readonly B[]
): Timetable<B> {
	const columns = stations.flatMap((station) => {
		const open = station.open.flatMap((text) => readStretch(text) ?? []);
		const own = bookings.filter((booking) => booking.station === station.id);
		const lanes = Math.max(open.length > 0 ? station.lanes : 0, ...own.map((booking) => booking.lane));
		return Array.from({ length: lanes }, (_, place) => ({
			station,
			lane: place + 1,
			open: place < station.lanes ? open.map(({ from, to }) => ({ from, to })).sort((a, b) => a.from - b.from) : [],
			bookings: own.filter((booking) => booking.lane === place + 1).sort((a, b) => a.start - b.start)
		}));
	});
	const shown = columns.flatMap((column) => column.bookings);
	const starts = [...columns.flatMap((column) => column.open.map((one) => one.from)), ...shown.map((one) => one.start)];
	const ends = [
		...columns.flatMap((column) => column.open.map((one) => one.to)),
		...shown.map((one) => one.start + one.minutes)
	];
	return {
		from: starts.length === 0 ? 480 : Math.floor(Math.min(...starts) / 60) * 60,
		to: ends.length === 0 ? 1020 : Math.ceil(Math.max(...ends) / 60) * 60,
		columns,
		shortest: Math.max(1, Math.min(60, ...shown.map((booking) => booking.minutes)))
	};
}
