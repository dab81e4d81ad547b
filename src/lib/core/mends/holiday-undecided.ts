import type { AccessModel } from '../access/model';
import { type EpochDay, dateOf } from '../calendar/local-date';
import { type SpanSet, intersection, spanSetOf, union } from '../calendar/spans';
import type { Instant } from '../calendar/zone';
import { counted, nameOf } from '../document/names';
import type { Rollout, Schedule, Treatment } from '../document/schema';
import { type Candidate, type MendInput, type NeededAccess, defineMend } from './define-mend';
import { changeCovering } from './support/cover-schedule';
import { setField } from './support/edit-calls';
import { type Situation, situationOfShifts } from './support/situation';
import { treatmentWords } from './support/words';

export default defineMend({
	code: 'holiday-undecided',
	asks: ['schedule', 'kind'],
	propose(input) {
		const { rollout, access, subject } = input;
		const schedule = rollout.schedules.find(({ id }) => id === subject['schedule']);
		const kind = subject['kind'];
		if (!schedule || kind === undefined) return { candidates: [], needed: [] };
		const dates = spanSetOf(
			[...access.holidays]
				.filter(([, holiday]) => holiday.kind === kind)
				.flatMap(([day]) => access.zone.spansOfDates(day, day))
		);
		const locked = peopleLocked(input, schedule, dates);
		const exact = exactly(access, schedule, kind, locked);
		const decide = (treatment: Treatment, more: Partial<Candidate> = {}): Candidate => ({
			way: `decide-${typeof treatment === 'string' ? treatment : 'stretches'}`,
			does: `Let schedule ${nameOf(rollout.schedules, schedule.id)} be ${treatmentWords(kind, treatment)}`,
			edits: [setField('schedules', schedule.id, ['holidays', kind], treatment)],
			...more
		});
		return {
			candidates: [
				...(exact
					? [
							decide(exact, {
								order: -1,
								notes: [
									`These are exactly the minutes that the shifts of ${counted(locked.length, 'person', 'people')} need.`
								]
							})
						]
					: []),
				decide('closed', { notes: ['The doors stay as they are now; only the decision is written down.'] }),
				decide('normal'),
				...asOnOtherKinds(schedule, kind).map(([other, treatment]) =>
					decide(treatment, { notes: [`The same as on ${other} holidays.`] })
				)
			],
			needed: locked.flatMap(({ needed }) => needed)
		};
	}
});

interface Locked {
	readonly situation: Situation;
	readonly needed: readonly NeededAccess[];
}

/** Who cannot work a shift on the dates for want of doors that this schedule gives. */
function peopleLocked({ rollout, access, coverage }: MendInput, schedule: Schedule, dates: SpanSet): Locked[] {
	const places = new Set(assignmentsWith(rollout, schedule.id));
	return access.classes
		.filter(({ assignments }) => assignments.some((place) => places.has(place)))
		.flatMap(({ people }) => people)
		.flatMap((person): Locked[] => {
			const situation = situationOfShifts(access, coverage, person, () => true);
			if (!situation) return [];
			const needed = [...situation.needs.byDoor].flatMap(([door, spans]): NeededAccess[] => {
				const isGiven = situation.one.assignments.some((place) =>
					access.grantsOf(place, door).some((grant) => grant.schedule === schedule.id)
				);
				const there = isGiven ? intersection(spans, dates) : [];
				const id = access.building.doors[door]?.id as string;
				return there.length > 0 ? [{ person: person.id, door: id, spans: there }] : [];
			});
			return needed.length > 0 ? [{ situation, needed }] : [];
		});
}

function assignmentsWith(rollout: Rollout, schedule: string): number[] {
	const profiles = new Set(
		rollout.accessProfiles
			.filter(({ entries }) => entries.some((entry) => entry.schedule === schedule))
			.map(({ id }) => id)
	);
	return rollout.assignments.flatMap(({ accessProfile }, place) => (profiles.has(accessProfile) ? [place] : []));
}

/** The stretches that the shifts need on days of the kind; null where none needs any. */
function exactly(access: AccessModel, schedule: Schedule, kind: string, locked: readonly Locked[]): string[] | null {
	const spans = union(...locked.flatMap(({ needed }) => needed.map((one) => one.spans)));
	const inValidity = spans.filter(({ from }) => isValidOn(schedule, access.zone.dayAt(from as Instant)));
	const treatment = changeCovering(schedule, inValidity, access, 'exact').holidays.get(kind);
	return Array.isArray(treatment) && treatment.length > 0 ? treatment : null;
}

function isValidOn({ from, until }: Schedule, day: EpochDay): boolean {
	const date = dateOf(day);
	return (from === null || from <= date) && (until === null || date <= until);
}

/** Lists that the schedule has for other kinds, each once. */
function asOnOtherKinds(schedule: Schedule, kind: string): (readonly [string, Treatment])[] {
	const seen = new Set<string>();
	return Object.entries(schedule.holidays).flatMap(([other, treatment]) => {
		if (!Array.isArray(treatment) || other === kind || seen.has(treatment.join())) return [];
		seen.add(treatment.join());
		return [[other, treatment] as const];
	});
}
