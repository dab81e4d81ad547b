import type { CohortCoverage, CoverageFinder, Gaps, UncoveredShift } from '../../access/coverage';
import type { AccessModel } from '../../access/model';
import type { WorkedShift } from '../../access/shifts';
import { type EpochDay, dateOf } from '../../calendar/local-date';
import { clockText } from '../../calendar/stretch';
import { counted, listed, nameOf, personName } from '../../document/names';
import type { Absence, Person, Rollout } from '../../document/schema';
import { remembered } from '../../kernel/remembered';
import type { Instant } from '../../calendar/zone';
import type { Case, CheckInput } from '../define-check';

/** The cases of a person, with what they follow from. */
interface PersonCases {
	readonly cohort: CohortCoverage;
	readonly absences: readonly Absence[];
	readonly onHoliday: Case | null;
	readonly otherwise: Case | null;
}

/** The cases of people with uncovered shifts, on a holiday or otherwise: one per person, with the dates of the shifts. */
export function uncoveredCases({ access, coverage, kept }: CheckInput, isOnHoliday: boolean): Case[] {
	const found = kept.renew<ReadonlyMap<Person, PersonCases>>('uncovered', (before) => {
		const now = new Map<Person, PersonCases>();
		for (const one of access.classes) {
			for (const person of one.people) {
				const cohort = coverage.cohortOf(person, one);
				if (cohort.uncovered.length === 0) continue;
				const absences = coverage.absencesOf(person);
				const known = before?.get(person);
				const isSame = known?.cohort === cohort && isSameList(known.absences, absences);
				now.set(person, isSame ? known : casesOf(person, cohort, absences, coverage, access));
			}
		}
		return now;
	});
	return [...found.values()].flatMap((one) => (isOnHoliday ? one.onHoliday : one.otherwise) ?? []);
}

/** What of a case does not name the person: the same for everybody like them. */
type Shared = Omit<Case, 'subject'>;

const sharedOfCohort = new WeakMap<
	CohortCoverage,
	{ readonly onHoliday: Shared | null; readonly otherwise: Shared | null }
>();

function casesOf(
	person: Person,
	cohort: CohortCoverage,
	absences: readonly Absence[],
	coverage: CoverageFinder,
	access: AccessModel
): PersonCases {
	const make = () => {
		const uncovered = coverage.uncoveredOf(person);
		const shared = (isMeant: boolean) =>
			sharedOf(
				uncovered.filter(({ isOnHoliday }) => isOnHoliday === isMeant),
				(first) => factsOf(first, coverage.gapsOf(person, first), access)
			);
		return { onHoliday: shared(true), otherwise: shared(false) };
	};
	let shared = absences.length === 0 ? sharedOfCohort.get(cohort) : make();
	if (!shared) sharedOfCohort.set(cohort, (shared = make()));
	const subject = { person: person.id };
	return {
		cohort,
		absences,
		onHoliday: shared.onHoliday && { subject, ...shared.onHoliday },
		otherwise: shared.otherwise && { subject, ...shared.otherwise }
	};
}

function sharedOf(
	uncovered: readonly UncoveredShift[],
	facts: (first: WorkedShift) => NonNullable<Case['facts']>
): Shared | null {
	const first = uncovered[0]?.shift;
	if (!first) return null;
	const dates: string[] = [];
	let latest: number | undefined;
	for (const { shift } of uncovered) {
		if (shift.day !== latest) dates.push(textOf(shift.day));
		latest = shift.day;
	}
	return { dates, count: uncovered.length, facts: facts(first) };
}

const textByDay = new Map<EpochDay, string>();

/** A date as text, always the same text: millions of dates are told. */
function textOf(day: EpochDay): string {
	return remembered(textByDay, day, () => dateOf(day));
}

function isSameList(a: readonly unknown[], b: readonly unknown[]): boolean {
	return a === b || (a.length === b.length && a.every((entry, place) => entry === b[place]));
}

/** One sentence for a person's uncovered shifts, told by the first of them. */
export function uncoveredMessage({ subject, count = 1, facts }: Case, rollout: Rollout, what = ''): string {
	const areas = String(facts?.['areas'])
		.split('\n')
		.map((id) => nameOf(rollout.areas, id));
	return `${personName(rollout, subject['person'])} cannot work ${counted(count, 'shift')}${what}: first the one of ${String(facts?.['date'])} at ${String(facts?.['shift'])}, where ${listed(areas)} cannot be reached from ${String(facts?.['from'])} to ${String(facts?.['to'])}.`;
}

function factsOf(shift: WorkedShift, { spans, areas }: Gaps, access: AccessModel): Record<string, string> {
	const clock = (at: number) => {
		const { day, minute } = access.zone.wallTimeAt(at as Instant);
		return day === shift.day ? clockText(minute) : `${clockText(minute)} on ${dateOf(day)}`;
	};
	return {
		date: dateOf(shift.day),
		shift: shift.stretch.text,
		areas: areas.map((place) => access.building.areaIds[place]).join('\n'),
		from: clock(spans[0]?.from ?? shift.from),
		to: clock(spans[0]?.to ?? shift.to)
	};
}
