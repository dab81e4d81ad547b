import type { CohortCoverage, CoverageFinder, Gaps, UncoveredShift } from '../../access/coverage';
import type { AccessClass, AccessModel } from '../../access/model';
import type { WorkedShift } from '../../access/shifts';
import { type EpochDay, dateOf } from '../../calendar/local-date';
import { clockText } from '../../calendar/stretch';
import { counted, listed, nameOf, personName } from '../../document/names';
import type { Absence, Person, Rollout } from '../../document/schema';
import { isSameList, remembered } from '../../kernel/remembered';
import type { Instant } from '../../calendar/zone';
import type { Case, CheckInput } from '../define-check';

/** The cases of a person, with what they follow from. */
interface PersonCases {
	readonly cohort: CohortCoverage;
	readonly absences: readonly Absence[];
	readonly onHoliday: Case | null;
	readonly otherwise: Case | null;
}

/** People of a class who need the same, with their cases. */
interface GroupCases {
	readonly cohort: CohortCoverage;
	readonly all: readonly PersonCases[];
}

interface Kept {
	readonly absences: Rollout['absences'];
	readonly byGroup: ReadonlyMap<readonly Person[], GroupCases>;
	readonly onHoliday: readonly Case[];
	readonly otherwise: readonly Case[];
}

/** The cases of people with uncovered shifts, on a holiday or otherwise: one per person, with the dates of the shifts. */
export function uncoveredCases({ access, coverage, kept, rollout }: CheckInput, isOnHoliday: boolean): readonly Case[] {
	const found = kept.renew<Kept>('uncovered', (before) => {
		const byGroup = new Map<readonly Person[], GroupCases>();
		const areAbsencesSame = before?.absences === rollout.absences;
		let casesBefore: ReadonlyMap<Person, PersonCases> | undefined;
		for (const one of access.classes) {
			for (const people of coverage.alikeIn(one)) {
				const cohort = coverage.cohortOf(people[0] as Person, one);
				if (cohort.uncovered.length === 0) continue;
				const known = areAbsencesSame ? before.byGroup.get(people) : undefined;
				if (known?.cohort === cohort) {
					byGroup.set(people, known);
					continue;
				}
				const all = people.map((person) => {
					const absences = coverage.absencesOf(person);
					const own = (casesBefore ??= casesByPerson(before)).get(person);
					const isSame = own?.cohort === cohort && isSameList(own.absences, absences);
					return isSame ? own : casesOf(person, one, cohort, absences, coverage, access);
				});
				byGroup.set(people, { cohort, all });
			}
		}
		const cases = [...byGroup.values()].flatMap(({ all }) => all);
		return {
			absences: rollout.absences,
			byGroup,
			onHoliday: cases.flatMap(({ onHoliday }) => onHoliday ?? []),
			otherwise: cases.flatMap(({ otherwise }) => otherwise ?? [])
		};
	});
	return isOnHoliday ? found.onHoliday : found.otherwise;
}

function casesByPerson(before: Kept | undefined): ReadonlyMap<Person, PersonCases> {
	const cases = new Map<Person, PersonCases>();
	for (const [people, { all }] of before?.byGroup ?? []) {
		people.forEach((person, place) => cases.set(person, all[place] as PersonCases));
	}
	return cases;
}

/** What of a case does not name the person: the same for everybody like them. */
type Shared = Omit<Case, 'subject'>;

const sharedOfCohort = new WeakMap<
	CohortCoverage,
	{ readonly onHoliday: Shared | null; readonly otherwise: Shared | null }
>();

function casesOf(
	person: Person,
	one: AccessClass,
	cohort: CohortCoverage,
	absences: readonly Absence[],
	coverage: CoverageFinder,
	access: AccessModel
): PersonCases {
	const make = () => {
		const uncovered = coverage.uncoveredOf(person, one);
		const shared = (isMeant: boolean) =>
			sharedOf(
				uncovered.filter(({ isOnHoliday }) => isOnHoliday === isMeant),
				(first) => factsOf(first, coverage.gapsOf(person, first, one), access)
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
