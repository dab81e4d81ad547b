import { type FullWeek, type Grip, type Held, added, moved, movedToDay, snapped } from '$lib/charts/week-moves';
import { weekdays } from '$lib/core/calendar/local-date';
import { readStretch } from '$lib/core/calendar/stretch';

/** Where a pointer stands on a week sheet: column 0 to 6, minute 0 to 1440. */
export interface WeekPoint {
	readonly day: number;
	readonly minute: number;
}

/** A drag that has begun: on a stretch, or on empty paper to draw a new one. */
export interface WeekDrag {
	readonly origin: WeekPoint;
	readonly base: FullWeek;
	readonly held?: Held;
	readonly grip?: Grip;
}

/**
 * The week that a drag makes, always counted from the week in which it began. An end and a new stretch run past midnight
 * when the pointer goes into the next column.
 */
export function dragged(drag: WeekDrag, point: WeekPoint, step: number): FullWeek {
	const { origin, base, held, grip } = drag;
	if (!held || !grip) return drawn(base, origin, point, step);
	const stretch = readStretch(base[weekdays[held.day] ?? 'mon'][held.place] ?? '');
	if (!stretch) return base;
	if (grip === 'start') return moved(base, held, 'start', snapped(point.minute, step) - stretch.from);
	if (grip === 'end') {
		const daysOn = (point.day - held.day + 7) % 7;
		// Further than the next column there is no end: the pointer has slipped to the left.
		const minute = daysOn > 1 ? stretch.to : daysOn * 1440 + point.minute;
		return moved(base, held, 'end', snapped(minute, step) - stretch.to);
	}
	const shifted = moved(base, held, 'whole', snapped(point.minute - origin.minute, step));
	return movedToDay(shifted, held, held.day + point.day - origin.day).week;
}

function drawn(base: FullWeek, origin: WeekPoint, point: WeekPoint, step: number): FullWeek {
	const isNextDay = point.day === (origin.day + 1) % 7;
	const end = point.minute + (isNextDay ? 1440 : 0);
	const [a, b] = [snapped(origin.minute, step), snapped(end, step)];
	const [from, to] = [Math.min(a, b), Math.max(a, b)];
	// A click, or a hand that trembled, draws nothing.
	if (Math.abs(end - origin.minute) < step || from >= 1440) return base;
	return added(base, origin.day, from, Math.min(to, from + 1440)).week;
}
