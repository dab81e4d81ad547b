import { personName } from '../document/names';
import type { Person } from '../document/schema';
import { type Case, defineCheck } from './define-check';

export default defineCheck({
	code: 'person-without-access',
	severity: 'warning',
	title: 'Person who may open nothing',
	why: 'Somebody is employed in the horizon and may not open a single door in it.',
	mend: 'Add them to an assignment by person, department, job or wave; or check department and job in the roster.',
	source: 'Rollout document, findings',
	mendAt: ({ person }) => `people/${encodeURIComponent(String(person))}`,
	find: ({ access, kept, rollout: { horizon } }) => {
		const found = kept.renew<ReadonlyMap<Person, Case>>('person-without-access', (before) => {
			const people = access.classes
				.filter((one) => !access.doorsOf(one).opened.includes(1))
				.flatMap((one) => one.people)
				.filter(
					({ startsOn, leavesOn }) =>
						(startsOn === null || startsOn <= horizon.until) && (leavesOn === null || horizon.from <= leavesOn)
				);
			return new Map(people.map((person) => [person, before?.get(person) ?? { subject: { person: person.id } }]));
		});
		return [...found.values()];
	},
	// The name of a person comes with the person, and a person with another name is another object.
	tellsFrom: () => [],
	message: ({ subject }, rollout) => `${personName(rollout, subject['person'])} may open no door in the whole horizon.`
});
