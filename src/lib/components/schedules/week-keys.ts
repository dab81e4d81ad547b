import type { WeekBar } from '$lib/charts/week';
import { type FullWeek, type Held, added, moved, movedToDay, removed } from '$lib/charts/week-moves';

/** A week after a key, and where the stretch stands now; none when it was removed. */
export interface Keyed {
	readonly week: FullWeek;
	readonly held?: Held;
}

/**
 * What a key does to a stretch: arrows up and down move it by a step, with shift its end, with alt its start; left and right
 * change the day; delete and backspace remove it. Undefined for any other key.
 */
export function keyed(
	week: FullWeek,
	held: Held,
	{ key, shiftKey, altKey }: Pick<KeyboardEvent, 'key' | 'shiftKey' | 'altKey'>,
	step: number
): Keyed | undefined {
	const grip = shiftKey ? 'end' : altKey ? 'start' : 'whole';
	if (key === 'ArrowUp') return { week: moved(week, held, grip, -step), held };
	if (key === 'ArrowDown') return { week: moved(week, held, grip, step), held };
	if (key === 'ArrowLeft') return movedToDay(week, held, held.day - 1);
	if (key === 'ArrowRight') return movedToDay(week, held, held.day + 1);
	if (key === 'Delete' || key === 'Backspace') return { week: removed(week, held) };
	return undefined;
}

/** Adds a stretch to a day: working hours where it is empty, else an hour after the last, else the first hour. */
export function withNewStretch(week: FullWeek, bars: readonly WeekBar[], day: number): { week: FullWeek; held: Held } {
	const last = Math.max(-1, ...bars.filter((bar) => bar.day === day).map((bar) => bar.to));
	if (last < 0) return added(week, day, 480, 1020);
	return last <= 1380 ? added(week, day, last, last + 60) : added(week, day, 0, 60);
}
