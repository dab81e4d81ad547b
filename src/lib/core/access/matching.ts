import type { Assignment, Person, Rollout, Who } from '../document/schema';
import { remembered } from '../kernel/remembered';

/**
 * Gives a function from a person to the places of the assignments that match them, ascending: `everyone`, or any of the
 * person's id, department, job or wave listed. An index over the lists, so that it is quick for many people; who is named
 * by no id and has the same department, job and wave as another gets the same array.
 */
export function matchingAssignments(rollout: Pick<Rollout, 'assignments'>): (person: Person) => readonly number[] {
	const forEveryone: number[] = [];
	const byPerson = new Map<string, number[]>();
	const byDepartment = new Map<string, number[]>();
	const byJob = new Map<string, number[]>();
	const byWave = new Map<string, number[]>();
	const note = (places: Map<string, number[]>, words: readonly string[], place: number) => {
		for (const word of words) remembered(places, word, () => []).push(place);
	};
	rollout.assignments.forEach(({ who }, place) => {
		if (who.everyone) {
			forEveryone.push(place);
			return;
		}
		note(byPerson, who.people, place);
		note(byDepartment, who.departments, place);
		note(byJob, who.jobs, place);
		note(byWave, who.waves, place);
	});
	const placesOf = (places: ReadonlyMap<string, readonly number[]>, word: string | null) =>
		(word === null ? undefined : places.get(word)) ?? none;
	const shared = new Map<string | null, Map<string | null, Map<string | null, readonly number[]>>>();
	return (person) => {
		const { department, job, wave } = person;
		const ofJobs = remembered(
			shared,
			department,
			() => new Map<string | null, Map<string | null, readonly number[]>>()
		);
		const ofWaves = remembered(ofJobs, job, () => new Map<string | null, readonly number[]>());
		const alike = remembered(ofWaves, wave, () =>
			inOrder([forEveryone, placesOf(byDepartment, department), placesOf(byJob, job), placesOf(byWave, wave)])
		);
		const own = byPerson.get(person.id);
		return own ? inOrder([alike, own]) : alike;
	};
}

const none: readonly number[] = [];

/** The numbers of all lists, ascending, each once. */
function inOrder(lists: readonly (readonly number[])[]): readonly number[] {
	return [...new Set(lists.flat())].sort((a, b) => a - b);
}

/** True when an assignment matches a person, whatever the date. */
export function doesMatch({ who }: Assignment, person: Person): boolean {
	return who.everyone || isNamed(who, person);
}

function isNamed(who: Who, { id, department, job, wave }: Person): boolean {
	return (
		who.people.includes(id) ||
		(department !== null && who.departments.includes(department)) ||
		(job !== null && who.jobs.includes(job)) ||
		(wave !== null && who.waves.includes(wave))
	);
}
