import { clip, doMeet } from '../calendar/spans';
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
			const { from, to } = access.range;
			const doors = access.doorSetsOf(one).flatMap((set) => {
				const open = clip(set.spans, from, to);
				if (open.length === 0) return [];
				return set.doors.filter((place) => {
					const area = access.building.doors[place]?.from as number;
					if (access.building.outside.includes(area)) return false;
					return !doMeet(open, access.reachOf(one)[area] ?? []);
				});
			});
			return one.people.flatMap((person) =>
				doors.map((place) => ({ subject: { person: person.id, door: access.building.doors[place]?.id as string } }))
			);
		}),
	message: ({ subject }, rollout) => {
		const door = rollout.doors.find(({ id }) => id === subject['door']);
		return `${personName(rollout, subject['person'])} may open ${nameOf(rollout.doors, subject['door'])}, but never while they can reach ${nameOf(rollout.areas, door?.from)}, from which it leads.`;
	}
});
