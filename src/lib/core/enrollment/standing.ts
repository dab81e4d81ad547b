import type { Rollout } from '../document/schema';

/**
 * Where somebody stands before any plan: still to be booked; `declined` (consent declined or withdrawn: they need another
 * credential); `enrolled` (a template of theirs lies in some place from which it is not erased: they are done).
 */
export type Standing = 'to-book' | 'declined' | 'enrolled';

/**
 * The standing of every person. The latest consent entry decides, by date, and of one date the one further down the list;
 * an existing template comes before a consent, since who is done is neither booked nor unbooked.
 */
export function standingByPerson(rollout: Rollout): ReadonlyMap<string, Standing> {
	const standings = new Map<string, Standing>(rollout.people.map((person) => [person.id, 'to-book']));
	const latest = new Map<string, (typeof rollout.privacy.consents)[number]>();
	for (const consent of rollout.privacy.consents) {
		const before = latest.get(consent.person);
		if (!before || before.on <= consent.on) latest.set(consent.person, consent);
	}
	for (const [person, { decision }] of latest) if (decision !== 'given') standings.set(person, 'declined');
	for (const template of rollout.privacy.templates) {
		// An erasure dated before the enrollment empties nothing.
		const real = template.erasures.filter(({ on }) => on >= template.enrolledOn);
		const erased = new Set(real.map(({ from }) => from));
		if (template.storedOn.some((place) => !erased.has(place))) standings.set(template.person, 'enrolled');
	}
	return standings;
}
