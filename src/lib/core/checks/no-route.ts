import { nameOf, personName } from '../document/names';
import { defineCheck } from './define-check';

export default defineCheck({
	code: 'no-route',
	severity: 'error',
	title: 'No way to the door',
	why: 'A door that somebody may open is of no use while they cannot get to it.',
	mend: 'Give the doors on the way at the same times, or take this door from the profile.',
	source: 'Rollout document, meaning of reach',
	mendAt: ({ person, door }) =>
		`access?person=${encodeURIComponent(String(person))}&door=${encodeURIComponent(String(door))}`,
	find: ({ access }) =>
		access.classes.flatMap((one) => {
			const { opened, met } = access.doorsOf(one);
			const doors = access.building.doors.flatMap((door, place) => {
				const isInside = !access.building.outside.includes(door.from);
				return isInside && opened[place] === 1 && met[place] !== 1 ? [door.id] : [];
			});
			return one.people.flatMap((person) => doors.map((door) => ({ subject: { person: person.id, door } })));
		}),
	message: ({ subject }, rollout) => {
		const door = rollout.doors.find(({ id }) => id === subject['door']);
		return `${personName(rollout, subject['person'])} may open ${nameOf(rollout.doors, subject['door'])}, but never while they can reach ${nameOf(rollout.areas, door?.from)}, from which it leads.`;
	}
});
