import type { DoorsEver } from '../access/class-reach';
import { entryOf, nameOf, personName } from '../document/names';
import type { Person } from '../document/schema';
import { type Case, defineCheck } from './define-check';

export default defineCheck({
	code: 'no-route',
	severity: 'error',
	title: 'No way to the door',
	why: 'A door that somebody may open is of no use while they cannot get to it.',
	mend: 'Give the doors on the way at the same times, or take this door from the profile.',
	source: 'Rollout document, meaning of reach',
	mendAt: ({ person, door }) =>
		`access?person=${encodeURIComponent(String(person))}&door=${encodeURIComponent(String(door))}`,
	find: ({ access, kept }) => {
		const found = kept.renew<ReadonlyMap<Person, PersonCases>>('no-route', (before) => {
			const now = new Map<Person, PersonCases>();
			for (const one of access.classes) {
				const ever = access.doorsOf(one);
				const doors = access.building.doors.flatMap((door, place) => {
					const isInside = !access.building.outside.includes(door.from);
					return isInside && ever.opened[place] === 1 && ever.met[place] !== 1 ? [door.id] : [];
				});
				if (doors.length === 0) continue;
				for (const person of one.people) {
					const known = before?.get(person);
					const cases = doors.map((door) => ({ subject: { person: person.id, door } }));
					now.set(person, known?.ever === ever ? known : { ever, cases });
				}
			}
			return now;
		});
		return [...found.values()].flatMap(({ cases }) => cases);
	},
	tellsFrom: ({ doors, areas }) => [doors, areas],
	message: ({ subject }, rollout) => {
		const door = entryOf(rollout.doors, subject['door']);
		return `${personName(rollout, subject['person'])} may open ${nameOf(rollout.doors, subject['door'])}, but never while they can reach ${nameOf(rollout.areas, door?.from)}, from which it leads.`;
	}
});

/** The cases of a person, and what their class may open and get to. */
interface PersonCases {
	readonly ever: DoorsEver;
	readonly cases: readonly Case[];
}
