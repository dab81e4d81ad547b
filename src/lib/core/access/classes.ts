import { type EpochDay, type LocalDate, epochDayOf } from '../calendar/local-date';
import { type Span, type SpanSet, clip } from '../calendar/spans';
import type { Zone } from '../calendar/zone';
import type { Person, Rollout } from '../document/schema';
import { remembered } from '../kernel/remembered';
import { matchingAssignments } from './matching';

/** People with the same access over the whole range. */
export interface AccessClass {
	readonly key: string;
	readonly people: readonly Person[];
	/** Places of the matching assignments. */
	readonly assignments: readonly number[];
	/** The instants at which they are employed. */
	readonly employed: SpanSet;
	/** First and last date employed; infinite where there is none. */
	readonly firstDay: number;
	readonly lastDay: number;
}

/**
 * People gathered by what decides their access in a stretch of the time line: the assignments that match them, and dates of
 * employment as far as they lie in it.
 */
export function classesOf(rollout: Rollout, people: readonly Person[], zone: Zone, wide: Span): AccessClass[] {
	const matching = matchingAssignments(rollout);
	const classes = new Map<string, AccessClass & { readonly people: Person[] }>();
	for (const person of people) {
		const assignments = matching(person);
		const startsOn = isBefore(person.startsOn, wide.from) ? null : person.startsOn;
		const leavesOn = isAfter(person.leavesOn, wide.to) ? null : person.leavesOn;
		const key = `${assignments.join()}|${startsOn ?? ''}|${leavesOn ?? ''}`;
		remembered(classes, key, () => ({
			key,
			people: [] as Person[],
			assignments,
			employed: clip(spansOfLimits(zone, startsOn, leavesOn), wide.from, wide.to),
			firstDay: startsOn === null ? -Infinity : epochDayOf(startsOn),
			lastDay: leavesOn === null ? Infinity : epochDayOf(leavesOn)
		})).people.push(person);
	}
	return [...classes.values()];
}

/** The instants of the dates between two limits, both included; null is no limit. */
export function spansOfLimits(zone: Zone, from: LocalDate | null, until: LocalDate | null): SpanSet {
	const first = from === null ? -Infinity : epochDayOf(from);
	const last = until === null ? Infinity : epochDayOf(until);
	return zone.spansOfDates(first as EpochDay, last as EpochDay);
}

/** Two days are more than any zone differs from UTC, and a clock can be turned. */
const roomSeconds = 2 * 86400;

function isBefore(date: LocalDate | null, at: number): boolean {
	return date !== null && epochDayOf(date) * 86400 <= at - roomSeconds;
}

function isAfter(date: LocalDate | null, at: number): boolean {
	return date !== null && epochDayOf(date) * 86400 >= at + roomSeconds;
}
