import { holidaysByDay } from '../../access/holidays';
import { isEmployedOn, readyPattern, shiftsOfPattern } from '../../access/shifts';
import { epochDayOf } from '../../calendar/local-date';
import { type WallTime, localDateTimeOf } from '../../calendar/local-date-time';
import type { Zone } from '../../calendar/zone';
import type { Absence, Person, Rollout } from '../../document/schema';

/** Which patterns of a site explain the shifts of somebody; where none does, the nearest and how many shifts differ. */
export interface PatternMatch {
	readonly patterns: readonly string[];
	readonly nearest: string | undefined;
	readonly differing: number;
}

export interface WrittenShift {
	readonly from: WallTime;
	readonly to: WallTime;
}

/**
 * Holds the shifts of a person against every pattern of the site, on the dates from the first to the last of them: a pattern
 * explains them when it has exactly these, on dates on which the person is employed, not away, and no holiday stops it.
 */
export function matchPattern(
	shifts: readonly WrittenShift[],
	person: Person,
	rollout: Rollout,
	absences: readonly Absence[],
	zone: Zone
): PatternMatch {
	const written = new Set(shifts.map(({ from, to }) => `${localDateTimeOf(from)} ${localDateTimeOf(to)}`));
	const days = shifts.map(({ from }) => from.day as number);
	const [first, last] = [Math.min(...days), Math.max(...days)];
	const holidays = holidaysByDay(rollout);
	const away = absences.filter((one) => one.person === person.id);
	const isAway = (day: number): boolean =>
		away.some(
			({ from, until }) => (from === null || epochDayOf(from) <= day) && (until === null || epochDayOf(until) >= day)
		);
	const found = rollout.shiftPatterns.map((pattern) => {
		const own = shiftsOfPattern(
			readyPattern(pattern),
			first as WallTime['day'],
			last as WallTime['day'],
			holidays,
			zone
		).filter(({ day }) => isEmployedOn(person, day) && !isAway(day));
		const expected = new Set(
			own.map(({ day, stretch }) => {
				const [from, to] = [
					localDateTimeOf({ day, minute: stretch.from }),
					localDateTimeOf({ day, minute: stretch.to })
				];
				return `${from} ${to}`;
			})
		);
		const differing =
			[...written].filter((one) => !expected.has(one)).length + [...expected].filter((one) => !written.has(one)).length;
		return { id: pattern.id, differing };
	});
	const best = found.toSorted((a, b) => a.differing - b.differing)[0];
	return {
		patterns: found.filter(({ differing }) => differing === 0).map(({ id }) => id),
		nearest: best && best.differing < written.size ? best.id : undefined,
		differing: best?.differing ?? 0
	};
}
