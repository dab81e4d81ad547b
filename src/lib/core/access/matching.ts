import type { Assignment, Person, Rollout, Who } from '../document/schema';

/**
 * Gives a function from a person to the places of the assignments that match them, ascending: `everyone`, or any of the
 * person's id, department, job or wave listed. An index over the lists, so that it is quick for many people.
 */
export function matchingAssignments(rollout: Pick<Rollout, 'assignments'>): (person: Person) => readonly number[] {
	const forEveryone: number[] = [];
	const placesByWord = new Map<string, number[]>();
	const note = (word: string, place: number) => {
		const places = placesByWord.get(word) ?? [];
		places.push(place);
		placesByWord.set(word, places);
	};
	rollout.assignments.forEach(({ who }, place) => {
		if (who.everyone) forEveryone.push(place);
		else for (const word of wordsOf(who)) note(word, place);
	});
	return (person) => {
		const places = new Set(forEveryone);
		for (const word of wordsFor(person)) for (const place of placesByWord.get(word) ?? []) places.add(place);
		return [...places].sort((a, b) => a - b);
	};
}

/** True when an assignment matches a person, whatever the date. */
export function doesMatch(assignment: Assignment, person: Person): boolean {
	if (assignment.who.everyone) return true;
	const words = new Set(wordsOf(assignment.who));
	return wordsFor(person).some((word) => words.has(word));
}

function wordsOf(who: Who): string[] {
	return [
		...who.people.map((id) => `person ${id}`),
		...who.departments.map((name) => `department ${name}`),
		...who.jobs.map((name) => `job ${name}`),
		...who.waves.map((id) => `wave ${id}`)
	];
}

function wordsFor(person: Person): string[] {
	return [
		`person ${person.id}`,
		...(person.department === null ? [] : [`department ${person.department}`]),
		...(person.job === null ? [] : [`job ${person.job}`]),
		...(person.wave === null ? [] : [`wave ${person.wave}`])
	];
}
