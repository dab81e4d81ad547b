import { type EpochDay, dateOf, epochDayOf } from '../calendar/local-date';
import { type Stretch, stretch } from '../calendar/stretch';
import type { Instant, Zone } from '../calendar/zone';
import type { Absence, Holiday, Person, ShiftPattern } from '../document/schema';
import { instantsOfStretch } from './schedule-days';

/** A shift that somebody works: the date on which it starts and its instants. */
export interface WorkedShift {
	readonly day: EpochDay;
	readonly stretch: Stretch;
	readonly from: Instant;
	readonly to: Instant;
}

/** A pattern made ready: stretches by day of the cycle. */
export interface ReadyPattern {
	readonly id: string;
	readonly anchor: EpochDay;
	readonly cycleDays: number;
	readonly stretchesByCycleDay: ReadonlyMap<number, readonly Stretch[]>;
	readonly worksOn: ReadonlySet<string>;
}

/** Reads the stretches of a shift pattern once. */
export function readyPattern(pattern: ShiftPattern): ReadyPattern {
	const byDay = new Map<number, Stretch[]>();
	for (const shift of pattern.shifts) {
		const list = byDay.get(shift.day) ?? [];
		list.push(stretch(shift.at));
		byDay.set(shift.day, list);
	}
	return {
		id: pattern.id,
		anchor: epochDayOf(pattern.anchor),
		cycleDays: pattern.cycleDays,
		stretchesByCycleDay: byDay,
		worksOn: new Set(pattern.worksOn)
	};
}

/**
 * The shifts of a pattern that start on the dates `from` to `until`, on ordinary days and on the holidays that it works
 * on; a shift that is empty once its ends are instants is none. In the order of dates.
 */
export function shiftsOfPattern(
	pattern: ReadyPattern,
	from: EpochDay,
	until: EpochDay,
	holidays: ReadonlyMap<EpochDay, Holiday>,
	zone: Zone
): WorkedShift[] {
	const shifts: WorkedShift[] = [];
	for (let number = from as number; number <= until; number++) {
		const day = number as EpochDay;
		const cycleDay = (((day - pattern.anchor) % pattern.cycleDays) + pattern.cycleDays) % pattern.cycleDays;
		const stretches = pattern.stretchesByCycleDay.get(cycleDay);
		if (!stretches || !zone.hasDate(day)) continue;
		const kind = holidays.get(day)?.kind;
		if (kind !== undefined && !pattern.worksOn.has(kind)) continue;
		for (const one of stretches) {
			const { from: start, to: end } = instantsOfStretch(one, day, zone);
			if (start < end) shifts.push({ day, stretch: one, from: start, to: end });
		}
	}
	return shifts;
}

/** True when somebody is employed on a date. */
export function isEmployedOn(person: Pick<Person, 'startsOn' | 'leavesOn'>, day: EpochDay): boolean {
	const date = dateOf(day);
	return (person.startsOn === null || person.startsOn <= date) && (person.leavesOn === null || date <= person.leavesOn);
}

/** True when one of the absences of somebody covers a date. */
export function isAbsentOn(absences: readonly Absence[], day: EpochDay): boolean {
	const date = dateOf(day);
	return absences.some(({ from, until }) => (from === null || from <= date) && (until === null || date <= until));
}
