import { type EpochDay, dateOf } from '../../calendar/local-date';
import type { Instant } from '../../calendar/zone';
import { counted, listed, nameOf, personName } from '../../document/names';
import { groupBy } from '../../kernel/group-by';
import type { Candidate } from '../define-mend';
import { addEntry, setField } from './edit-calls';
import type { Situation } from './situation';

/**
 * Ways that change no door but what the document says of the work: for when the shift, the holiday or the last day is what is
 * wrong. Each says that it must be so.
 */
export function notWorking(situation: Situation): Candidate[] {
	return [
		...movedToColleagues(situation),
		...notOnKind(situation),
		...longerEmployed(situation),
		...absent(situation).map((candidate) => ({ ...candidate, order: 1 })),
		...elsewhere(situation)
	].map((candidate) => ({ ...candidate, isFact: true }));
}

/** Most of those who work the same pattern in the same places are of another department: perhaps a move was not entered. */
function movedToColleagues({ rollout, person }: Situation): Candidate[] {
	const alike = rollout.people.filter(
		(other) =>
			other.id !== person.id &&
			other.shiftPattern === person.shiftPattern &&
			other.department !== null &&
			person.workAreas.every((area) => other.workAreas.includes(area))
	);
	const most = [...groupBy(alike, ({ department, wave }) => JSON.stringify([department, wave])).values()].sort(
		(a, b) => b.length - a.length
	)[0];
	const model = most?.[0];
	if (!most || !model || model.department === null || model.department === person.department) return [];
	const isOtherWave = model.wave !== null && model.wave !== person.wave;
	const wave = isOtherWave ? ` and the wave ${nameOf(rollout.enrollment.waves, model.wave)}` : '';
	return [
		{
			way: 'move-department',
			does: `If ${personName(rollout, person.id)} has moved to ${model.department}: enter that department${wave}`,
			edits: [
				setField('people', person.id, ['department'], model.department),
				...(isOtherWave ? [setField('people', person.id, ['wave'], model.wave)] : [])
			],
			notes: [
				`${most.length} of ${alike.length} others on pattern ${nameOf(rollout.shiftPatterns, person.shiftPattern)} in the same work areas are there.`
			]
		}
	];
}

/** More than so many absences, or days of them, are no slip but another way of working. */
const mostAbsences = 3;
const mostDaysAway = 7;

/** The kinds of holiday on which uncovered shifts start, out of the days on which the pattern works. */
function notOnKind({ rollout, model, person, shifts }: Situation): Candidate[] {
	const pattern = rollout.shiftPatterns.find(({ id }) => id === person.shiftPattern);
	const kinds = new Set(shifts.flatMap(({ day }) => model.holidays.get(day)?.kind ?? []));
	if (!pattern || kinds.size === 0) return [];
	const others = rollout.people.filter(
		({ id, shiftPattern }) => shiftPattern === pattern.id && id !== person.id
	).length;
	return [
		{
			way: 'not-on-holiday',
			does: `If pattern ${nameOf(rollout.shiftPatterns, pattern.id)} does not work on ${listed([...kinds])} holidays: take ${kinds.size === 1 ? 'that kind' : 'those kinds'} from its days`,
			edits: [
				setField(
					'shiftPatterns',
					pattern.id,
					['worksOn'],
					pattern.worksOn.filter((kind) => !kinds.has(kind))
				)
			],
			notes: [
				others === 0
					? 'Nobody else works this pattern.'
					: `${counted(others, 'other person works', 'other people work')} this pattern; their shifts on these days go as well.`
			]
		}
	];
}

/** A last shift that runs past the last day employed: the last day is the date on which the shift ends. */
function longerEmployed({ rollout, model, person, needs }: Situation): Candidate[] {
	const last = needs.notEmployed.at(-1);
	if (!last || person.leavesOn === null) return [];
	const date = dateOf(model.zone.dayAt((last.to - 1) as Instant));
	if (date <= person.leavesOn) return [];
	return [
		{
			way: 'later-last-day',
			does: `If ${personName(rollout, person.id)} works the last shift to its end: let the last day be ${date} instead of ${person.leavesOn}`,
			edits: [setField('people', person.id, ['leavesOn'], date)],
			notes: ['The last day also decides when a template must be erased.']
		}
	];
}

/** A few shifts that are not worked after all. */
function absent({ rollout, person, shifts }: Situation): Candidate[] {
	const days = [...new Set(shifts.map(({ day }) => day))].sort((a, b) => a - b);
	const runs = runsOf(days);
	if (runs.length === 0 || runs.length > mostAbsences || days.length > mostDaysAway) return [];
	const dates = runs.map(([first, last]) => (first === last ? dateOf(first) : `${dateOf(first)} to ${dateOf(last)}`));
	return [
		{
			way: 'absence',
			does: `If ${personName(rollout, person.id)} does not work on ${listed(dates)}: enter an absence`,
			edits: runs.map(([first, last]) =>
				addEntry('absences', { person: person.id, from: dateOf(first), until: dateOf(last) })
			)
		}
	];
}

function runsOf(days: readonly EpochDay[]): (readonly [EpochDay, EpochDay])[] {
	const runs: (readonly [EpochDay, EpochDay])[] = [];
	for (const day of days) {
		const last = runs.at(-1);
		if (last && day === last[1] + 1) runs[runs.length - 1] = [last[0], day];
		else runs.push([day, day]);
	}
	return runs;
}

/** A work area that no chain of doors leads to, or that is never reached: out of the areas that the work needs. */
function elsewhere({ rollout, model, person, needs }: Situation): Candidate[] {
	const unreachable = new Set(needs.unreachable.map((place) => model.building.areaIds[place]));
	if (unreachable.size === 0) return [];
	const names = [...unreachable].map((id) => nameOf(rollout.areas, id));
	return [
		{
			way: 'not-in-area',
			does: `If the work of ${personName(rollout, person.id)} is not in ${listed(names)}: take it from the work areas`,
			edits: [
				setField(
					'people',
					person.id,
					['workAreas'],
					person.workAreas.filter((id) => !unreachable.has(id))
				)
			]
		}
	];
}
