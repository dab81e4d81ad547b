import { type EpochDay, type LocalDate, dateOf, epochDayOf, plusDays } from '../calendar/local-date';
import { firstEndingAfter } from '../calendar/spans';
import type { Instant } from '../calendar/zone';
import type { Assignment, Rollout } from '../document/schema';
import type { AccessModel } from './model';
import { type DayRule, type ReadySchedule, dayRuleOf, openingsOn } from './schedule-days';
import { isEmployedOn } from './shifts';

/**
 * The ways from a person to a door at a moment, link by link: assignment, profile, door group, schedule, stretch; each with
 * everything that breaks it.
 *
 * Nearness. A broken way is the nearer, the fewer things stand in it: `broken` lists them from the person to the stretch, each
 * found with the ones before it undone. Of two with equally many that one is nearer whose first break lies further from the
 * person (a holiday, then the hours, the schedule's dates, the assignment's dates, the door that its groups lack); then the one
 * whose schedule is open at the moment nearest in time, before or after; then the order of the document. Our own definition.
 */

/** What breaks a way, in the order from the person to the stretch. */
export type Break =
	| 'assignment-not-in-force'
	| 'door-not-granted'
	| 'schedule-not-valid'
	| 'holiday-undecided'
	| 'holiday-closed'
	| 'schedule-closed';

/** One way from a person to a door. */
export interface Chain {
	readonly assignment: string;
	readonly accessProfile: string;
	/** The group that holds the door; where none of the profile does, the one that comes nearest. Null: the profile is empty. */
	readonly doorGroup: string | null;
	readonly schedule: string | null;
	/** The stretch that is open, and the date on which it began; null in a way that is broken. */
	readonly stretch: string | null;
	readonly date: LocalDate | null;
	/** Everything that breaks it; empty where it holds. */
	readonly broken: readonly Break[];
	/** Seconds from the moment to the nearest one at which the schedule is open. */
	readonly secondsAway: number;
}

const ranks: Readonly<Record<Break, number>> = {
	'holiday-undecided': 0,
	'holiday-closed': 1,
	'schedule-closed': 2,
	'schedule-not-valid': 3,
	'assignment-not-in-force': 4,
	'door-not-granted': 5
};

/** The ways of one assignment to a door at a moment, as if it matched; one for each stretch that is open. */
export function chainsOf(model: AccessModel, assignment: Assignment, doorId: string, moment: Instant): Chain[] {
	const today = model.zone.dayAt(moment);
	const profile = model.rollout.accessProfiles.find(({ id }) => id === assignment.accessProfile);
	const holding = new Set(model.rollout.doorGroups.filter(({ doors }) => doors.includes(doorId)).map(({ id }) => id));
	const common = { assignment: assignment.id, accessProfile: assignment.accessProfile };
	const before: Break[] = isInForce(assignment, today) ? [] : ['assignment-not-in-force'];
	const ways = (profile?.entries ?? []).flatMap(({ doorGroup, schedule }): Chain[] => {
		const ready = model.schedules.get(schedule);
		if (!ready) return [];
		const isGranted = holding.has(doorGroup);
		const above: Break[] = isGranted ? before : [...before, 'door-not-granted'];
		const way = { ...common, doorGroup, schedule };
		const open = openingsAt(model, ready, moment);
		if (open.length === 0 || above.length > 0) {
			const broken = [...above, ...(open.length === 0 ? breaksOf(model, ready, moment) : [])];
			return [{ ...way, stretch: null, date: null, broken, secondsAway: secondsToOpen(model, schedule, moment) }];
		}
		return open.map(({ stretch, day }) => {
			return { ...way, stretch: stretch.text, date: dateOf(day), broken: [], secondsAway: 0 };
		});
	});
	const granted = ways.filter(({ broken }) => !broken.includes('door-not-granted'));
	if (granted.length > 0) return granted;
	const nearest = [...ways].sort(byNearness)[0];
	const none: Chain = {
		...common,
		doorGroup: null,
		schedule: null,
		stretch: null,
		date: null,
		broken: [...before, 'door-not-granted'],
		secondsAway: Infinity
	};
	return [nearest ?? none];
}

/** The nearest first; see above. To be used with a stable sort, so that the order of the document decides at last. */
export function byNearness(a: Chain, b: Chain): number {
	const rank = (chain: Chain) => ranks[chain.broken[0] ?? 'holiday-undecided'];
	const far = (chain: Chain) => Math.min(chain.secondsAway, Number.MAX_SAFE_INTEGER);
	return a.broken.length - b.broken.length || rank(a) - rank(b) || far(a) - far(b);
}

/** The openings of a schedule that hold at a moment. */
export function openingsAt(model: AccessModel, schedule: ReadySchedule, moment: Instant) {
	const today = model.zone.dayAt(moment);
	// The next date's too: where a clock is turned back past midnight, they have begun already.
	return [-2, -1, 0, 1]
		.flatMap((days) => openingsOn(schedule, plusDays(today, days), model.holidays, model.zone))
		.filter(({ from, to }) => from <= moment && moment < to);
}

/** The rule of a schedule for the date of a moment. */
export function ruleAt(model: AccessModel, schedule: ReadySchedule, moment: Instant): DayRule {
	return dayRuleOf(schedule, model.zone.dayAt(moment), model.holidays);
}

/** Everything that keeps a schedule closed at a moment, each found with the ones before it undone. */
function breaksOf(model: AccessModel, schedule: ReadySchedule, moment: Instant): Break[] {
	if (openingsAt(model, schedule, moment).length > 0) return [];
	const one = breakOfRule[ruleAt(model, schedule, moment).rule];
	return one === 'schedule-closed' ? [one] : [one, ...breaksOf(model, undone(model, one, schedule, moment), moment)];
}

const breakOfRule = {
	week: 'schedule-closed',
	'holiday-list': 'holiday-closed',
	'holiday-closed': 'holiday-closed',
	'holiday-undecided': 'holiday-undecided',
	'not-valid': 'schedule-not-valid'
} as const satisfies Readonly<Record<DayRule['rule'], Break>>;

/** A schedule without one of its breaks at a moment: valid always, or doing on that kind of holiday as on an ordinary day. */
export function undone(model: AccessModel, one: Break, schedule: ReadySchedule, moment: Instant): ReadySchedule {
	if (one === 'schedule-not-valid') return withoutLimits(schedule);
	const rule = ruleAt(model, schedule, moment);
	const isHoliday = one === 'holiday-closed' || one === 'holiday-undecided';
	return isHoliday && 'kind' in rule ? withNormal(schedule, rule.kind) : schedule;
}

/** A schedule that is always valid. */
function withoutLimits(schedule: ReadySchedule): ReadySchedule {
	return { ...schedule, from: -Infinity, until: Infinity };
}

/** A schedule that does on a kind of holiday what it does on an ordinary day. */
export function withNormal(schedule: ReadySchedule, kind: string): ReadySchedule {
	return { ...schedule, treatments: new Map([...schedule.treatments, [kind, 'normal']]) };
}

function secondsToOpen(model: AccessModel, scheduleId: string, moment: Instant): number {
	const spans = model.openSpans(scheduleId);
	const next = firstEndingAfter(spans, moment);
	const after = spans[next] ? Math.max(0, spans[next].from - moment) : Infinity;
	const before = spans[next - 1];
	return Math.min(after, before ? moment - before.to : Infinity);
}

/** True when an assignment is in force on a date. */
export function isInForce(assignment: Pick<Assignment, 'from' | 'until'>, day: EpochDay): boolean {
	return isEmployedOn({ startsOn: assignment.from, leavesOn: assignment.until }, day);
}

/** Where a date lies that two limits do not hold: before the first or after the last. */
export function sideOf(from: LocalDate | null, day: EpochDay): 'before' | 'after' {
	return from !== null && day < epochDayOf(from) ? 'before' : 'after';
}

/** The places of the assignments whose ways hold at a moment, as if they matched anybody. */
export function openAssignments(model: AccessModel, doorId: string, moment: Instant): Assignment[] {
	const { assignments }: Rollout = model.rollout;
	return assignments.filter((one) => chainsOf(model, one, doorId, moment).some(({ broken }) => broken.length === 0));
}
