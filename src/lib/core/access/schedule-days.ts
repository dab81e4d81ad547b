import {
	type EpochDay,
	type LocalDate,
	type Weekday,
	epochDayOf,
	plusDays,
	weekdayOf,
	weekdays
} from '../calendar/local-date';
import { type SpanSet, difference, spanSetOf } from '../calendar/spans';
import { type Stretch, stretch } from '../calendar/stretch';
import type { Instant, Zone } from '../calendar/zone';
import type { Holiday, Schedule } from '../document/schema';

/**
 * What a schedule does, date by date, as "Meaning: when a schedule is open" of the document format states it: each date
 * has one rule, the rule gives the stretches that begin on it, and tells whether what the date before carried runs on.
 */

/** A schedule made ready: stretches read, limits as whole-number dates (infinite where there is none). */
export interface ReadySchedule {
	readonly id: string;
	readonly from: number;
	readonly until: number;
	readonly week: Readonly<Record<Weekday, readonly Stretch[]>>;
	readonly treatments: ReadonlyMap<string, 'normal' | 'closed' | readonly Stretch[]>;
}

/** Which rule decides a date, and with what. Only under `week` what the date before carried runs on. */
export type DayRule =
	| { readonly rule: 'week'; readonly stretches: readonly Stretch[] }
	| { readonly rule: 'holiday-list'; readonly kind: string; readonly stretches: readonly Stretch[] }
	| { readonly rule: 'holiday-closed' | 'holiday-undecided'; readonly kind: string; readonly stretches: readonly [] }
	| { readonly rule: 'not-valid'; readonly stretches: readonly [] };

/** A stretch on the time line: the date on which it began, and its instants after every cut. */
export interface Opening {
	readonly day: EpochDay;
	readonly stretch: Stretch;
	readonly from: Instant;
	readonly to: Instant;
	/** True when the next date ended it at its midnight, earlier than it is written. */
	readonly isCut: boolean;
}

/** Reads the stretches of a schedule once. */
export function readySchedule(schedule: Schedule): ReadySchedule {
	const week = {} as Record<Weekday, readonly Stretch[]>;
	for (const day of weekdays) week[day] = schedule.week[day].map(stretch);
	const treatments = new Map<string, 'normal' | 'closed' | readonly Stretch[]>();
	for (const [kind, treatment] of Object.entries(schedule.holidays)) {
		if (treatment === null || treatment === undefined) continue;
		treatments.set(kind, typeof treatment === 'string' ? treatment : treatment.map(stretch));
	}
	return {
		id: schedule.id,
		from: dayOr(schedule.from, -Infinity),
		until: dayOr(schedule.until, Infinity),
		week,
		treatments
	};
}

function dayOr(date: LocalDate | null, otherwise: number): number {
	return date === null ? otherwise : epochDayOf(date);
}

/** The rule that decides a date of a schedule. */
export function dayRuleOf(schedule: ReadySchedule, day: EpochDay, holidays: ReadonlyMap<EpochDay, Holiday>): DayRule {
	if (day < schedule.from || day > schedule.until) return { rule: 'not-valid', stretches: [] };
	const kind = holidays.get(day)?.kind;
	if (kind === undefined) return { rule: 'week', stretches: schedule.week[weekdayOf(day)] };
	const treatment = schedule.treatments.get(kind);
	if (treatment === undefined) return { rule: 'holiday-undecided', kind, stretches: [] };
	if (treatment === 'normal') return { rule: 'week', stretches: schedule.week[weekdayOf(day)] };
	if (treatment === 'closed') return { rule: 'holiday-closed', kind, stretches: [] };
	return { rule: 'holiday-list', kind, stretches: treatment };
}

/**
 * The openings that begin on one date, without what other dates take from them. A date that the zone leaves out has none;
 * one that is empty once its ends are instants is none.
 */
export function openingsOn(
	schedule: ReadySchedule,
	day: EpochDay,
	holidays: ReadonlyMap<EpochDay, Holiday>,
	zone: Zone
): Opening[] {
	const { stretches } = dayRuleOf(schedule, day, holidays);
	if (stretches.length === 0 || !zone.hasDate(day)) return [];
	const whole = stretches
		.map((one) => ({ one, ...instantsOfStretch(one, day, zone) }))
		.filter(({ from, to }) => from < to);
	const cuts = cutsOf(schedule, day, Math.max(...whole.map(({ to }) => to)), holidays, zone);
	return whole.flatMap(({ one, from, to }) =>
		difference([{ from, to }], cuts).map((left) => ({
			day,
			stretch: one,
			from: left.from as Instant,
			to: left.to as Instant,
			isCut: left.to !== to
		}))
	);
}

/**
 * What other dates take from the stretches that begin on a date and end by `latest`: all from the midnight of the first later
 * date that lets nothing run on; and, where a clock is turned back past midnight, the time in which it shows the date
 * before again, if that is no ordinary one.
 * @example 22:00-23:30 in Nuuk on 2024-03-30 ends at 00:30 on 2024-03-31, since the clock skips its last hour
 */
function cutsOf(
	schedule: ReadySchedule,
	day: EpochDay,
	latest: number,
	holidays: ReadonlyMap<EpochDay, Holiday>,
	zone: Zone
): SpanSet {
	const runsOn = (other: EpochDay) => dayRuleOf(schedule, other, holidays).rule === 'week';
	const turnedBack = zone.turnedBackOn(day);
	const cuts = turnedBack.length === 0 || runsOn(plusDays(day, -1)) ? [] : [...turnedBack];
	for (let next = plusDays(day, 1); zone.midnightOf(next) < latest; next = plusDays(next, 1)) {
		if (runsOn(next)) continue;
		cuts.push({ from: zone.midnightOf(next), to: Infinity });
		break;
	}
	return cuts;
}

/** The instants of a stretch that begins on a date; 00:00 and 24:00 are the date's and the next date's midnight. */
export function instantsOfStretch(one: Stretch, day: EpochDay, zone: Zone): { from: Instant; to: Instant } {
	return {
		from: one.from === 0 ? zone.midnightOf(day) : zone.instantOf({ day, minute: one.from }),
		to: one.to === 1440 ? zone.midnightOf(plusDays(day, 1)) : zone.instantOf({ day, minute: one.to })
	};
}

/** Every instant at which a schedule is open through openings that begin on the dates `from` to `until`. */
export function openSpansOf(
	schedule: ReadySchedule,
	from: EpochDay,
	until: EpochDay,
	holidays: ReadonlyMap<EpochDay, Holiday>,
	zone: Zone
): SpanSet {
	const openings: Opening[] = [];
	const [first, last] = [Math.max(from, schedule.from), Math.min(until, schedule.until)];
	for (let day = first; day <= last; day++) openings.push(...openingsOn(schedule, day as EpochDay, holidays, zone));
	return spanSetOf(openings);
}
