import { type EpochDay, type LocalDate, dateOf, epochDayOf } from '../calendar/local-date';
import { type Span, type SpanSet, clip } from '../calendar/spans';
import type { Zone } from '../calendar/zone';
import type { Person, Rollout } from '../document/schema';
import { isSameList, remembered } from '../kernel/remembered';
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

type Gathered = AccessClass & { readonly people: Person[] };

/**
 * People gathered by what decides their access in a stretch of the time line: the assignments that match them, and dates of
 * employment as far as they lie in it.
 */
export function classesOf(rollout: Rollout, people: readonly Person[], zone: Zone, wide: Span): AccessClass[] {
	const matching = matchingAssignments(rollout);
	const limits = limitsOf(wide);
	const classes: AccessClass[] = [];
	const bySet = new Map<string, Map<string, Gathered>>();
	// People who are alike share the list of their assignments: what it says is then written out once.
	const ofList = new Map<readonly number[], Map<string, Gathered>>();
	for (const person of people) {
		const assignments = matching(person);
		const ofSet = remembered(ofList, assignments, () =>
			remembered(bySet, assignments.join(), () => new Map<string, Gathered>())
		);
		const startsOn = person.startsOn === null || person.startsOn <= limits.first ? null : person.startsOn;
		const leavesOn = person.leavesOn === null || person.leavesOn >= limits.last ? null : person.leavesOn;
		const employment = startsOn === null && leavesOn === null ? '' : `${startsOn ?? ''}|${leavesOn ?? ''}`;
		remembered(ofSet, employment, () => {
			const made: Gathered = {
				key: `${assignments.join()}|${employment}`,
				people: [],
				assignments,
				employed: clip(spansOfLimits(zone, startsOn, leavesOn), wide.from, wide.to),
				firstDay: startsOn === null ? -Infinity : epochDayOf(startsOn),
				lastDay: leavesOn === null ? Infinity : epochDayOf(leavesOn)
			};
			classes.push(made);
			return made;
		}).people.push(person);
	}
	return classes;
}

/**
 * The classes, each taken from those of an earlier state where it is the same: what was worked out for the object then still
 * holds for it. Only where both states have the same range and time zone.
 */
export function sameClasses(classes: readonly AccessClass[], before: readonly AccessClass[]): readonly AccessClass[] {
	const byKey = new Map(before.map((one) => [one.key, one]));
	return classes.map((one) => {
		const known = byKey.get(one.key);
		return known && isSameList(known.people, one.people) ? known : one;
	});
}

/** The instants of the dates between two limits, both included; null is no limit. */
export function spansOfLimits(zone: Zone, from: LocalDate | null, until: LocalDate | null): SpanSet {
	const first = from === null ? -Infinity : epochDayOf(from);
	const last = until === null ? Infinity : epochDayOf(until);
	return zone.spansOfDates(first as EpochDay, last as EpochDay);
}

/** Two days are more than any zone differs from UTC, and a clock can be turned. */
const roomDays = 2;

/** Dates so far outside of a stretch of the time line that they limit nothing in it. */
function limitsOf({ from, to }: Span): { first: string; last: string } {
	const last = dateOf((Math.ceil(to / 86400) + roomDays) as EpochDay);
	return {
		first: dateOf((Math.floor(from / 86400) - roomDays) as EpochDay),
		// Past the year 9999 there is no date, and none that limits nothing.
		last: last.length > 10 ? '~' : last
	};
}
