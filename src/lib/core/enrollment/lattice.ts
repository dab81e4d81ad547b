import { type EpochDay, plusDays } from '../calendar/local-date';
import { type LocalDateTime, localDateTimeOf } from '../calendar/local-date-time';
import type { EnrollmentModel, OpenStretch, ReadyStation } from './model';

/**
 * The starts that the grid allows at a station. A *slot* is such a start, numbered in the order of time over all open
 * stretches of the station; everything that the planner does is arithmetic on slots. A booking that starts in slot i takes
 * the slots from i up to `next[i]`, the first at which the following booking of the lane may start; two bookings of a lane
 * collide exactly when their slots do. So clock changes and stretches that touch need no further care.
 */
export interface Lattice {
	readonly ready: ReadyStation;
	/** Instant of each slot, ascending. */
	readonly at: Float64Array;
	/** Slots of one *run*: a stretch, or stretches that overlap. Run r has the slots runFirst[r] to runFirst[r + 1] - 1. */
	readonly runFirst: Int32Array;
	readonly runs: readonly Run[];
	/** Wall-clock name of each slot. */
	readonly names: readonly { readonly day: EpochDay; readonly minute: number }[];
}

export interface Run {
	readonly from: number;
	readonly to: number;
	readonly stretches: readonly OpenStretch[];
}

/** The local date-time of a slot. */
export function slotName(lattice: Lattice, slot: number): LocalDateTime {
	const name = lattice.names[slot];
	if (!name) throw new RangeError('no such slot');
	return localDateTimeOf(name);
}

/** Lays the grid over the open stretches of a station. */
export function latticeOf(model: EnrollmentModel, ready: ReadyStation): Lattice {
	const runs = runsOf(ready.stretches);
	const at: number[] = [];
	const names: { day: EpochDay; minute: number }[] = [];
	const runFirst: number[] = [0];
	for (const run of runs) {
		for (const slot of slotsIn(model, run)) {
			at.push(slot.at);
			names.push({ day: slot.day, minute: slot.minute });
		}
		runFirst.push(at.length);
	}
	return { ready, at: Float64Array.from(at), runFirst: Int32Array.from(runFirst), runs, names };
}

function runsOf(stretches: readonly OpenStretch[]): Run[] {
	const runs: { from: number; to: number; stretches: OpenStretch[] }[] = [];
	for (const stretch of stretches) {
		const last = runs.at(-1);
		if (last && stretch.from < last.to) {
			last.to = Math.max(last.to, stretch.to);
			last.stretches.push(stretch);
		} else runs.push({ from: stretch.from, to: stretch.to, stretches: [stretch] });
	}
	return runs;
}

interface Slot {
	readonly at: number;
	readonly day: EpochDay;
	readonly minute: number;
}

/** Every grid time in a run; of two names of one instant (a skipped time and its reading) the one that the clock shows. */
function slotsIn(model: EnrollmentModel, run: Run): Slot[] {
	const { zone } = model;
	const grid = model.rollout.enrollment.gridMinutes;
	const isPlain = zone.clockChanges.every((change) => change.at < run.from - 86400 || run.to + 86400 < change.at);
	const slots: (Slot & { readonly isSkipped: boolean })[] = [];
	const firstDay = zone.dayAt(run.from as never);
	const lastDay = zone.dayAt(run.to as never);
	const base = zone.midnightOf(firstDay);
	for (let day = firstDay; day <= lastDay; day = plusDays(day, 1)) {
		for (let minute = 0; minute < 1440; minute += grid) {
			const at = isPlain ? base + (day - firstDay) * 86400 + minute * 60 : zone.instantOf({ day, minute });
			if (at < run.from || at >= run.to) continue;
			slots.push({ at, day, minute, isSkipped: !isPlain && zone.fateOf({ day, minute }) === 'skipped' });
		}
	}
	slots.sort((a, b) => a.at - b.at || Number(a.isSkipped) - Number(b.isSkipped));
	return slots.filter((slot, index) => slot.at !== slots[index - 1]?.at);
}

/** First slot at or after an instant; the number of slots when there is none. */
export function firstSlotFrom(lattice: Lattice, at: number): number {
	let low = 0;
	let high = lattice.at.length;
	while (low < high) {
		const middle = (low + high) >>> 1;
		if ((lattice.at[middle] as number) >= at) high = middle;
		else low = middle + 1;
	}
	return low;
}

/** As `firstSlotFrom`, of an instant inside of a run or at its ends. */
export function firstSlotOfRun({ at, runFirst }: Lattice, run: number, instant: number): number {
	let low = runFirst[run] as number;
	let high = runFirst[run + 1] as number;
	if (high - low > 1) {
		// Slots mostly lie one step apart: then the place can be reckoned.
		const step = (at[low + 1] as number) - (at[low] as number);
		const guess = low + Math.ceil((instant - (at[low] as number)) / step);
		if (guess > low && guess < high && (at[guess] as number) >= instant && (at[guess - 1] as number) < instant)
			return guess;
	}
	while (low < high) {
		const middle = (low + high) >>> 1;
		if ((at[middle] as number) >= instant) high = middle;
		else low = middle + 1;
	}
	return low;
}

/** For every slot, the first slot at which the next booking may start after one of so many seconds and the turnover. */
export function nextSlots(lattice: Lattice, seconds: number): Int32Array {
	const { at } = lattice;
	const taken = seconds + lattice.ready.station.turnoverMinutes * 60;
	const next = new Int32Array(at.length);
	let end = 0;
	for (let slot = 0; slot < at.length; slot++) {
		while (end < at.length && (at[end] as number) < (at[slot] as number) + taken) end++;
		// A booking without length still holds its own slot, so that nobody is planned inside of another's time.
		next[slot] = Math.max(end, slot + 1);
	}
	return next;
}
