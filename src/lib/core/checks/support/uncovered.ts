import type { Gaps, UncoveredShift } from '../../access/coverage';
import type { AccessModel } from '../../access/model';
import type { WorkedShift } from '../../access/shifts';
import { dateOf } from '../../calendar/local-date';
import { clockText } from '../../calendar/stretch';
import { counted, listed, nameOf, personName } from '../../document/names';
import type { Rollout } from '../../document/schema';
import type { Instant } from '../../calendar/zone';
import type { Case, CheckInput } from '../define-check';

/** The cases of people with uncovered shifts of which `isMeant`: one per person, with the dates of the shifts. */
export function uncoveredCases(
	{ rollout, access, coverage }: CheckInput,
	isMeant: (one: UncoveredShift) => boolean
): Case[] {
	return rollout.people.flatMap((person) => {
		const meant = coverage.uncoveredOf(person).filter(isMeant);
		const first = meant[0]?.shift;
		if (!first) return [];
		return [
			{
				subject: { person: person.id },
				dates: meant.map(({ shift }) => dateOf(shift.day)),
				count: meant.length,
				facts: factsOf(first, coverage.gapsOf(person, first), access)
			}
		];
	});
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
