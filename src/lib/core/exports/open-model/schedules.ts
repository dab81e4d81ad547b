import { holidaysByDay } from '../../access/holidays';
import { type ReadySchedule, openSpansOf, readySchedule } from '../../access/schedule-days';
import { type EpochDay, dateOf, epochDayOf, plusDays } from '../../calendar/local-date';
import { type SpanSet, difference, intersection, lengthOf, spanSetOf } from '../../calendar/spans';
import { clockText } from '../../calendar/stretch';
import { type Instant, Zone } from '../../calendar/zone';
import { nameOf } from '../../document/names';
import type { Holiday, Rollout, Schedule } from '../../document/schema';
import { pathOf } from '../../kernel/fault';
import { remembered } from '../../kernel/remembered';
import { uidOf } from '../support/ical';
import { type DayPlan, carriedPart, keyOf, ownPart, planOf, regularPlanOf } from './day-plans';
import { type ReportItem, reported } from './report';
import type { OpenSchedule, SpecialDayGroup, SpecialDaysSchedule, TimePeriod } from './shapes';
import { daysOf, standardOf } from './standard';
import { Tokens, nameFields } from './tokens';

/**
 * Schedules and holidays as schedules with special days.
 *
 * The idea: each kind of holiday is a group of special days that schedules share. Wherever a date is to have other minutes than
 * the week and its kind give, it becomes a special day of a group of the schedule's own, so that by the clock on the wall every date
 * is exact. What is left are clock changes: there both readings are worked out as instants, and the difference is told. Our own.
 */
export function openSchedules(
	rollout: Rollout,
	stamp: string,
	report: ReportItem[]
): { readonly schedules: readonly OpenSchedule[]; readonly groups: readonly SpecialDayGroup[] } {
	const holidays = holidaysByDay(rollout);
	const [first, last] = [epochDayOf(rollout.horizon.from), epochDayOf(rollout.horizon.until)];
	const zone = new Zone(rollout.site.timeZone, plusDays(first, -6), plusDays(last, 6));
	const tokens = new Tokens();
	const groups: SpecialDayGroup[] = [];

	const daysByKind = new Map<string, EpochDay[]>();
	for (const [day, { kind }] of [...holidays].sort(([a], [b]) => a - b))
		remembered(daysByKind, kind, () => []).push(day);
	const tokenByKind = new Map<string, string>();
	for (const [kind, days] of daysByKind) tokenByKind.set(kind, addGroup(kind, kind, days));

	const dates = new Set<EpochDay>();
	for (let day = first; day <= last; day = plusDays(day, 1)) dates.add(day);
	for (const day of holidays.keys()) dates.add(day).add(plusDays(day, 1));
	const sorted = [...dates].sort((a, b) => a - b);

	const schedules = rollout.schedules.map((schedule, place): OpenSchedule => {
		const ready = readySchedule(schedule);
		const path = pathOf(['schedules', place]);
		const isLimited = ready.from > first || ready.until < last;
		const wanted = new Map(sorted.map((day) => [day, planOf(ready, day, holidays)]));
		const special: SpecialDaysSchedule[] = [];
		const covered = new Set<EpochDay>();
		for (const [kind, days] of daysByKind) {
			const treatment = ready.treatments.get(kind);
			if (treatment === 'normal') continue;
			const plan = treatment === undefined || treatment === 'closed' ? [] : ownPart(treatment);
			if (!days.every((day) => keyOf(wanted.get(day) ?? []) === keyOf(plan))) continue;
			special.push({ GroupToken: tokenByKind.get(kind) ?? kind, TimeRange: plan.map(periodOf) });
			for (const day of days) covered.add(day);
		}
		const own = new Map<string, EpochDay[]>();
		for (const [day, plan] of wanted) {
			if (covered.has(day) || keyOf(plan) === keyOf(regularPlanOf(ready, day, isLimited))) continue;
			remembered(own, keyOf(plan), () => []).push(day);
		}
		for (const days of own.values()) {
			const plan = wanted.get(days[0] as EpochDay) ?? [];
			const hours = plan.map(({ from, to }) => `${clockText(from)}-${clockText(to)}`).join(' ') || 'closed';
			const group = addGroup(
				`${schedule.id}.${special.length + 1}`,
				`${nameOf(rollout.schedules, schedule.id)}: ${hours}`,
				days
			);
			special.push({ GroupToken: group, TimeRange: plan.map(periodOf) });
			report.push(reported('own-special-days', path, `${schedule.id}, ${hours}`, { dates: days.map(dateOf) }));
		}
		reportWords(schedule, ready, path, isLimited);
		reportClockChanges(ready, path, wanted);
		return {
			token: schedule.id,
			...nameFields(nameOf(rollout.schedules, schedule.id), `${path}.name`, report),
			Standard: standardOf(ready, rollout.site.name, stamp, isLimited),
			SpecialDays: special
		};
	});
	return { schedules, groups };

	function addGroup(wantedToken: string, name: string, days: readonly EpochDay[]): string {
		const token = tokens.take(wantedToken);
		const path = pathOf(['holidays']);
		if (token !== wantedToken) report.push(reported('token-changed', path, `${wantedToken} is ${token}`));
		const named = days.map((day) => ({ day, name: holidayName(holidays.get(day), name) }));
		const uid = (day: EpochDay) => uidOf(rollout.site.name, 'special-day', token, dateOf(day));
		groups.push({ token, ...nameFields(name, path, report), Days: daysOf(named, uid, stamp) });
		return token;
	}

	function reportWords(schedule: Schedule, ready: ReadySchedule, path: string, isLimited: boolean): void {
		if (isLimited) {
			const limits = `${schedule.from ?? 'always'} until ${schedule.until ?? 'always'}`;
			report.push(reported('validity-limits', path, `${schedule.id} is valid from ${limits}`));
		}
		const kinds = new Set([...daysByKind.keys(), ...ready.treatments.keys()]);
		for (const kind of kinds) {
			const treatment = ready.treatments.get(kind);
			const at = `${path}.holidays${pathOf([kind]).slice(1)}`;
			const what = `${schedule.id} on ${kind}`;
			if (!daysByKind.has(kind)) report.push(reported('kind-without-dates', at, what));
			else if (treatment === undefined) report.push(reported('kind-undecided', at, what));
			else if (treatment === 'normal') report.push(reported('kind-normal', at, what));
		}
		const lists = [...Object.values(ready.week), ...ready.treatments.values()];
		const nights = lists.flatMap((list) =>
			typeof list === 'string' ? [] : list.filter((one) => carriedPart([one]).length > 0)
		);
		for (const text of new Set(nights.map((one) => one.text))) {
			report.push(reported('overnight-split', path, `${schedule.id}, ${text}`));
		}
	}

	function reportClockChanges(ready: ReadySchedule, path: string, wanted: ReadonlyMap<EpochDay, DayPlan>): void {
		const differing: string[] = [];
		let seconds = 0;
		for (const day of daysNearChanges(zone, first, last)) {
			const dayItself = zone.spansOfDates(day, day);
			const ours = intersection(openSpansOf(ready, plusDays(day, -4), plusDays(day, 1), holidays, zone), dayItself);
			const theirs = shownSpans(wanted.get(day) ?? [], dayItself, zone);
			const length = lengthOf(difference(ours, theirs)) + lengthOf(difference(theirs, ours));
			if (length > 0) differing.push(dateOf(day));
			seconds += length;
		}
		if (differing.length === 0) return;
		const minutes = Math.round(seconds / 60);
		report.push(reported('clock-change', path, `${ready.id}: ${minutes} minutes`, { dates: differing, minutes }));
	}
}

function holidayName(holiday: Holiday | undefined, otherwise: string): string {
	return holiday === undefined ? otherwise : (holiday.name ?? holiday.kind);
}

function periodOf({ from, to }: { readonly from: number; readonly to: number }): TimePeriod {
	const From = `${clockText(from)}:00`;
	return to === 1440 ? { From } : { From, Until: `${clockText(to)}:00` };
}

/** The instants of a date at which the clock shows one of the minutes. */
function shownSpans(plan: DayPlan, date: SpanSet, zone: Zone): SpanSet {
	const minutes = date.flatMap(({ from, to }) => {
		const shown: { from: number; to: number }[] = [];
		for (let at = from; at < to; at += 60) {
			const { minute } = zone.wallTimeAt(at as Instant);
			if (plan.some((period) => period.from <= minute && minute < period.to))
				shown.push({ from: at, to: Math.min(at + 60, to) });
		}
		return shown;
	});
	return spanSetOf(minutes);
}

/** Dates on which a clock change can make a difference: its own, and those into which a night runs. */
function daysNearChanges(zone: Zone, first: EpochDay, last: EpochDay): EpochDay[] {
	const days = new Set<EpochDay>();
	for (const { at } of zone.clockChanges) {
		const day = zone.dayAt(at);
		for (let near = day - 3; near <= day + 3; near++) if (near >= first && near <= last) days.add(near as EpochDay);
	}
	return [...days].sort((a, b) => a - b);
}
