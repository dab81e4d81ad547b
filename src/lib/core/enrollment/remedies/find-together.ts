import type { Shortfall, Together } from '../shortfalls';
import { withoutRepeats } from './entry-change';
import { type Found, RemedySearch, type RemedyTerms } from './find-remedies';
import { priceOf, sumOf } from './price';

/** From one round to the next the rollout is another, so that what did not go together may then do so. */
const mostRounds = 4;

/**
 * Changes that together book everybody of all shortfalls, as far as remedies go: those that were found for each are joined, what is
 * not needed is let go, and for whoever is left it is looked on from there. Cheap by being pruned; that no other set is cheaper is
 * not proved.
 */
export function findTogether(
	terms: RemedyTerms,
	first: RemedySearch,
	shortfalls: readonly Shortfall[],
	isOver: () => boolean,
	isHurried: () => boolean
): Together | undefined {
	const steps: Found[] = [];
	let people: ReadonlySet<string> = new Set();
	let search = first;
	let rest = shortfalls;
	for (let round = 0; round < mostRounds && rest.length > 0 && !isHurried(); round++) {
		search.hear(isOver);
		if (round > 0) for (const one of rest) search.mended(one, isHurried);
		search.hear(isOver);
		const found = search.combined(rest, people, isHurried);
		if (!found) break;
		steps.push(found);
		people = found.people;
		const { rollout, bookings } = search.planOf(found.pulled);
		const booked = new Set(bookings.map(({ person }) => person));
		const unbooked = new Set([...terms.unbooked].filter((id) => !booked.has(id)));
		rest = rest.filter((one) => one.people.some((id) => unbooked.has(id)));
		search = new RemedySearch({ rollout, bookings, unbooked });
	}
	if (steps.length === 0) return undefined;
	const takes = sumOf(steps.map(({ remedy }) => remedy.takes));
	return {
		people: [...people].filter((id) => terms.unbooked.has(id)),
		remedy: {
			does: steps.map(({ remedy }) => remedy.does).join('; '),
			minutes: steps.reduce((sum, { remedy }) => sum + remedy.minutes, 0),
			cost: priceOf(takes, terms.rollout.enrollment.costs),
			takes,
			kinds: [...new Set(steps.flatMap(({ remedy }) => remedy.kinds))],
			edits: withoutRepeats(steps.flatMap(({ remedy }) => remedy.edits))
		}
	};
}
