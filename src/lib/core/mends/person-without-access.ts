import type { Assignment, Person, Rollout } from '../document/schema';
import { nameOf, personName } from '../document/names';
import { matchingAssignments } from '../access/matching';
import { nearestName } from '../kernel/nearest';
import { type Candidate, type MendInput, defineMend } from './define-mend';
import { setField } from './support/edit-calls';
import { joining, worksAlike } from './support/join-assignment';
import { extended } from './support/extend-dates';
import { neededOf, situationOfShifts } from './support/situation';

export default defineMend({
	code: 'person-without-access',
	asks: ['person'],
	propose(input) {
		const { rollout, access, coverage, subject } = input;
		const person = rollout.people.find(({ id }) => id === subject['person']);
		if (!person) return { candidates: [], needed: [] };
		const shifts = situationOfShifts(access, coverage, person, () => true);
		const candidates = [
			...likeColleagues(input, person),
			...respelled(rollout, person),
			...(shifts ? extended(shifts) : []),
			...inForceWhileEmployed(input, person)
		];
		return {
			candidates,
			needed: shifts ? neededOf(shifts) : [],
			whyNone:
				rollout.assignments.length === 0
					? 'There is no assignment to join: first somebody must be given something.'
					: 'No assignment that a colleague has gives this person a door in the horizon.'
		};
	}
});

/** Whose assignments may be meant for somebody, the likest first. */
const likenesses = [
	{ what: 'job', isAlike: (a: Person, b: Person) => isSame(a.job, b.job), isSign: true },
	{ what: 'shift pattern and work areas', isAlike: worksAlike, isSign: true },
	{ what: 'department', isAlike: (a: Person, b: Person) => isSame(a.department, b.department), isSign: false },
	{ what: 'wave', isAlike: (a: Person, b: Person) => isSame(a.wave, b.wave), isSign: false }
] as const;

const mostOfALikeness = 3;

function isSame(a: string | null, b: string | null): boolean {
	return a !== null && a === b;
}

/**
 * The assignments that colleagues have. Of people with the same job, or the same work, that is a sign; of others in the
 * department or wave, who may have theirs for another job, only what is there to choose from, the smallest first.
 */
function likeColleagues({ rollout, access }: MendInput, person: Person): Candidate[] {
	const matching = matchingAssignments(rollout);
	const own = new Set(matching(person));
	const seen = new Set<number>();
	return likenesses.flatMap(({ what, isAlike, isSign }) => {
		const colleagues = rollout.people.filter((other) => other.id !== person.id && isAlike(person, other));
		const counts = new Map<number, number>();
		for (const other of colleagues) {
			for (const place of matching(other)) if (!own.has(place)) counts.set(place, (counts.get(place) ?? 0) + 1);
		}
		return [...counts]
			.filter(([place]) => !seen.has(place))
			.sort(([, a], [, b]) => b - a)
			.slice(0, mostOfALikeness)
			.map(([place, count]) => {
				seen.add(place);
				const assignment = rollout.assignments[place] as Assignment;
				return {
					...joining(access, assignment, person.id),
					order: isSign ? 0 : 1,
					notes: [
						`${count} of ${colleagues.length} others with the same ${what} ${count === 1 ? 'has' : 'have'} it${isSign ? '' : ', perhaps for another job'}.`
					]
				};
			});
	});
}

/** A department or job that is nearly one which assignments name. */
function respelled(rollout: Rollout, person: Person): Candidate[] {
	return (['department', 'job'] as const).flatMap((field): Candidate[] => {
		const written = person[field];
		const named = [
			...new Set(rollout.assignments.flatMap(({ who }) => (field === 'job' ? who.jobs : who.departments)))
		];
		if (written === null || named.includes(written)) return [];
		const meant =
			named.find((word) => word.toLowerCase().trim() === written.toLowerCase().trim()) ?? nearestName(written, named);
		if (meant === undefined) return [];
		return [
			{
				way: 'respell',
				does: `If the ${field} of ${personName(rollout, person.id)} is meant to be ${meant} and not ${written}: correct it`,
				edits: [setField('people', person.id, [field], meant)],
				isFact: true
			}
		];
	});
}

/** Assignments that match the person, and are in force only when the person is not employed or no schedule is valid. */
function inForceWhileEmployed({ rollout, access }: MendInput, person: Person): Candidate[] {
	const { from, until } = rollout.horizon;
	const first = person.startsOn !== null && person.startsOn > from ? person.startsOn : from;
	const last = person.leavesOn !== null && person.leavesOn < until ? person.leavesOn : until;
	return (access.findClass(person.id)?.assignments ?? []).flatMap((place): Candidate[] => {
		const assignment = rollout.assignments[place] as Assignment;
		const isLate = assignment.from !== null && assignment.from > last;
		const isOver = assignment.until !== null && assignment.until < first;
		if (!isLate && !isOver) return [];
		const [field, date] = isLate ? (['from', first] as const) : (['until', last] as const);
		const profile = nameOf(rollout.accessProfiles, assignment.accessProfile);
		return [
			{
				way: 'extend-assignment',
				does: `Let assignment ${assignment.id} of profile ${profile} ${isLate ? 'begin' : 'end'} on ${date} instead of ${String(assignment[field])}`,
				edits: [setField('assignments', assignment.id, [field], date)]
			}
		];
	});
}
