import { type Weekday, weekdays } from '$lib/core/calendar/local-date';
import { readStretch } from '$lib/core/calendar/stretch';
import { type Week, stretchText } from './week';

/** What a week sheet can do to one stretch, as plain functions: dragging and the keyboard share them. */

/** A stretch by its column and its place in that day. */
export interface Held {
	readonly day: number;
	readonly place: number;
}

export type FullWeek = Record<Weekday, readonly string[]>;

/** Which part of a stretch is moved. */
export type Grip = 'start' | 'end' | 'whole';

/** Shortest stretch that can be made by moving, in minutes. */
export const shortest = 5;

/** A week with every day, from one that leaves closed days out. */
export function fullWeek(week: Week): FullWeek {
	return Object.fromEntries(weekdays.map((day) => [day, week[day] ?? []])) as FullWeek;
}

/** Minutes rounded to the nearest step. */
export function snapped(minutes: number, step: number): number {
	return Math.round(minutes / step) * step;
}

/**
 * A week in which the start, the end or the whole of a stretch is moved by some minutes, as far as it can go: a start
 * stays in its day, an end stays after the start and at most a day behind it.
 */
export function moved(week: FullWeek, held: Held, grip: Grip, minutes: number): FullWeek {
	return changed(week, held, (from, to) => {
		if (grip === 'end') return [from, clamped(to + minutes, from + shortest, from + 1440)];
		if (grip === 'start') {
			// One that is shorter already keeps its start at the latest where it is.
			const latest = Math.max(from, Math.min(1439, to - shortest));
			return [clamped(from + minutes, Math.max(0, to - 1440), latest), to];
		}
		const start = clamped(from + minutes, 0, Math.max(from, 1440 - shortest));
		return [start, to + start - from];
	});
}

/** A week in which a stretch stands on another day; a column outside the week changes nothing. */
export function movedToDay(week: FullWeek, held: Held, day: number): { week: FullWeek; held: Held } {
	const [source, target] = [weekdays[held.day], weekdays[day]];
	const text = source && week[source][held.place];
	if (!source || !target || text === undefined || source === target) return { week, held };
	return {
		week: { ...week, [source]: without(week[source], held.place), [target]: [...week[target], text] },
		held: { day, place: week[target].length }
	};
}

/** A week without a stretch. */
export function removed(week: FullWeek, held: Held): FullWeek {
	const day = weekdays[held.day];
	return day ? { ...week, [day]: without(week[day], held.place) } : week;
}

/** A week with one more stretch on a day, from one minute to another (past 1440: into the next day). */
export function added(week: FullWeek, day: number, from: number, to: number): { week: FullWeek; held: Held } {
	const weekday = weekdays[day] as Weekday;
	return {
		week: { ...week, [weekday]: [...week[weekday], stretchText(from, to)] },
		held: { day, place: week[weekday].length }
	};
}

/** A week in which the days given have the hours of another. */
export function copied(week: FullWeek, from: Weekday, onto: readonly Weekday[]): FullWeek {
	return { ...week, ...Object.fromEntries(onto.map((day) => [day, week[from]])) };
}

function changed(week: FullWeek, held: Held, change: (from: number, to: number) => [number, number]): FullWeek {
	const day = weekdays[held.day];
	const stretch = day && readStretch(week[day][held.place] ?? '');
	if (!day || !stretch) return week;
	const text = stretchText(...change(stretch.from, stretch.to));
	return { ...week, [day]: week[day].map((one, place) => (place === held.place ? text : one)) };
}

function without(texts: readonly string[], place: number): string[] {
	return texts.filter((_, at) => at !== place);
}

function clamped(value: number, least: number, most: number): number {
	return Math.min(Math.max(value, least), most);
}
