import type { DayClock } from '$lib/charts/day-clock';
import type { Span } from '$lib/core/calendar/spans';

/** What a person can reach on one date, as plain data. Times are seconds from the first instant of the date. */
export interface DayReach {
	readonly person: { readonly id: string; readonly name: string; readonly workAreas: readonly string[] };
	readonly clock: DayClock;
	/** `Thu 4 Feb 2027` and, where it is one, the holiday. */
	readonly dayWords: string;
	/** The moment that is looked at. */
	readonly at: number;
	readonly areas: readonly { readonly id: string; readonly spans: readonly Span[] }[];
	/** When the areas within reach become others. */
	readonly changes: readonly number[];
	readonly shifts: readonly DayShift[];
}

/** A shift of the person as far as it lies on the date. */
export interface DayShift extends Span {
	/** `06:00–14:00, at work from 05:45` */
	readonly words: string;
	/** Why it is not checked; null where it is. */
	readonly unchecked: string | null;
	/** Work areas by id with what of the shift they are out of reach. */
	readonly missing: readonly { readonly area: string; readonly spans: readonly Span[] }[];
}

/** The areas that can be reached at a second of the date. */
export function reachedAt({ areas }: Pick<DayReach, 'areas'>, second: number): Set<string> {
	return new Set(
		areas.filter(({ spans }) => spans.some(({ from, to }) => from <= second && second < to)).map(({ id }) => id)
	);
}
