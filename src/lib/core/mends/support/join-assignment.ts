import type { AccessClass, AccessModel } from '../../access/model';
import { type SpanSet, difference, lengthOf, noSpans } from '../../calendar/spans';
import { nameOf, personName } from '../../document/names';
import type { Assignment, Person } from '../../document/schema';
import { groupBy } from '../../kernel/group-by';
import type { Candidate } from '../define-mend';
import { addPeople } from './edit-calls';
import { needsOf } from './needs';
import type { Situation } from './situation';

const most = 3;

/**
 * Adds somebody to an assignment that is there already and gives what is missing. Of assignments of the same profile and the
 * same dates one is looked at; those that give least besides come first.
 */
export function joined({ model, rollout, person, one, areas, wanted }: Situation): Candidate[] {
	return otherAssignments(model, one, person)
		.flatMap((place) => {
			const more = classWith(one, place);
			const isEnough = (spans: SpanSet) => {
				const left = needsOf(model, more, areas, spans, () => 1);
				return left.byDoor.size + left.unreachable.length + left.notEmployed.length === 0;
			};
			// Most fail at the first time already, which is quick to see.
			return isEnough(wanted.slice(0, 1)) && isEnough(wanted)
				? [{ place, besides: secondsGained(model, one, more) }]
				: [];
		})
		.sort((a, b) => a.besides - b.besides)
		.slice(0, most)
		.flatMap(({ place }) => {
			const assignment = rollout.assignments[place];
			return assignment ? [joining(model, assignment, person.id)] : [];
		});
}

/** The candidate of adding somebody to an assignment. */
export function joining({ rollout }: AccessModel, assignment: Assignment, person: string): Candidate {
	const profile = nameOf(rollout.accessProfiles, assignment.accessProfile);
	return {
		way: 'join-assignment',
		does: `Add ${personName(rollout, person)} to assignment ${assignment.id}, which gives profile ${profile}`,
		edits: [addPeople(rollout, assignment.id, [person])]
	};
}

/**
 * Places of assignments that do not match a class, and that somebody has who works alike; one for each profile and dates, best
 * one that names people already. What nobody alike has would let somebody into places that are none of theirs.
 */
function otherAssignments({ rollout, classes }: AccessModel, { assignments }: AccessClass, person: Person): number[] {
	const ofColleagues = new Set<number>();
	for (const one of classes) {
		const others = one.assignments.filter((place) => !assignments.includes(place));
		if (others.length === 0) continue;
		for (const other of one.people) {
			const isAlike = worksAlike(person, other);
			const isNear = other.department !== null && other.department === person.department;
			if (!isAlike && !isNear) continue;
			for (const place of others) {
				// In the same department another job may be the reason; who is named in person is not named for the job.
				const isNamed = rollout.assignments[place]?.who.people.includes(other.id) === true;
				if (isAlike || isNamed) ofColleagues.add(place);
			}
		}
	}
	const places = [...ofColleagues].sort((a, b) => a - b);
	const keyOf = (place: number) => {
		const { accessProfile, from, until } = rollout.assignments[place] as Assignment;
		return JSON.stringify([accessProfile, from, until]);
	};
	return [...groupBy(places, keyOf).values()].map(
		(same) => same.find((place) => (rollout.assignments[place]?.who.people.length ?? 0) > 0) ?? (same[0] as number)
	);
}

/** True for people with the same job, or on the same pattern in the same work areas. */
export function worksAlike(a: Person, b: Person): boolean {
	if (a.job !== null && a.job === b.job) return true;
	const areasOf = ({ workAreas }: Person) => [...new Set(workAreas)].sort().join('\n');
	return a.shiftPattern !== null && a.shiftPattern === b.shiftPattern && areasOf(a) === areasOf(b);
}

/** The class of people who are matched by one assignment more. */
function classWith(one: AccessClass, assignment: number): AccessClass {
	const assignments = [...one.assignments, assignment].sort((a, b) => a - b);
	return { ...one, key: `${one.key} with ${assignment}`, assignments };
}

function secondsGained(model: AccessModel, before: AccessClass, after: AccessClass): number {
	const old = new Map(model.doorSetsOf(before).flatMap(({ doors, spans }) => doors.map((door) => [door, spans])));
	let seconds = 0;
	for (const { doors, spans } of model.doorSetsOf(after)) {
		for (const door of doors) seconds += lengthOf(difference(spans, old.get(door) ?? noSpans));
	}
	return seconds;
}
