import type { PlainDocument, PlainSchedule } from '../oracles/plain-rollout';

/** One stretch for every day of the week. */
export function everyDay(...stretches: string[]): NonNullable<PlainSchedule['week']> {
	return Object.fromEntries(['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].map((day) => [day, stretches]));
}

/**
 * The smallest rollout in which somebody opens something: person `p` may open door `d` from the street to the hall on
 * schedule `s`. A test says what is different about it.
 */
export function oneDoor(
	place: { readonly timeZone: string; readonly from: string; readonly until: string },
	schedule: Omit<PlainSchedule, 'id'>,
	rest: Partial<PlainDocument> = {}
): PlainDocument {
	return {
		format: 'doorwright.rollout',
		version: 1,
		site: { name: 'One door', timeZone: place.timeZone },
		horizon: { from: place.from, until: place.until },
		areas: [{ id: 'street', outside: true }, { id: 'hall' }],
		doors: [{ id: 'd', from: 'street', to: 'hall' }],
		doorGroups: [{ id: 'g', doors: ['d'] }],
		schedules: [{ id: 's', ...schedule }],
		holidays: { coveredUntil: place.until },
		people: [{ id: 'p' }],
		accessProfiles: [{ id: 'f', entries: [{ doorGroup: 'g', schedule: 's' }] }],
		assignments: [{ id: 'a', who: { everyone: true }, accessProfile: 'f' }],
		...rest
	};
}
