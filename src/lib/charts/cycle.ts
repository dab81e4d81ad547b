import { stretch } from '$lib/core/calendar/stretch';

/** A bar of a cycle picture: minutes of its day; what runs past midnight is a second bar on the next day. */
export interface CycleBar {
	readonly day: number;
	readonly from: number;
	readonly to: number;
}

/**
 * The bars of a shift pattern over one turn of its cycle; a shift that runs past midnight goes on in the next day, and
 * from the last day into the first.
 */
export function cycleBars(
	cycleDays: number,
	shifts: readonly { readonly day: number; readonly at: string }[]
): CycleBar[] {
	return shifts.flatMap(({ day, at }) => {
		const { from, to } = stretch(at);
		const first = { day, from, to: Math.min(to, 1440) };
		return to <= 1440 ? [first] : [first, { day: (day + 1) % cycleDays, from: 0, to: to - 1440 }];
	});
}

/** Hours of work in one turn of the cycle. */
export function hoursPerCycle(shifts: readonly { readonly at: string }[]): number {
	return shifts.reduce((hours, { at }) => hours + (stretch(at).to - stretch(at).from) / 60, 0);
}
