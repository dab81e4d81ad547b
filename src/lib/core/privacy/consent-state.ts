import type { LocalDate } from '../calendar/local-date';
import type { Consent } from '../document/schema';
import { byCodeUnits } from '../kernel/compare';
import { groupBy } from '../kernel/group-by';

/** What a person has agreed to, as known on a date. Entries dated later are held apart and change nothing else. */
export interface ConsentState {
	/** The latest decision; `none` where nobody wrote one down, which is no refusal. */
	readonly decision: Consent['decision'] | 'none';
	readonly latest: Consent | null;
	readonly firstGiven: Consent | null;
	readonly latestGiven: Consent | null;
	readonly inFuture: readonly Consent[];
}

/** The state of somebody of whom no entry is known. */
export const noConsent: ConsentState = {
	decision: 'none',
	latest: null,
	firstGiven: null,
	latestGiven: null,
	inFuture: []
};

/** What one person's entries come to on a date: in the order of their dates, those of one date as they are listed. */
export function consentState(entries: readonly Consent[], on: LocalDate): ConsentState {
	const inOrder = entries.toSorted((a, b) => byCodeUnits(a.on, b.on));
	const known = inOrder.filter((entry) => entry.on <= on);
	const latest = known.at(-1) ?? null;
	return {
		decision: latest?.decision ?? 'none',
		latest,
		firstGiven: known.find((entry) => entry.decision === 'given') ?? null,
		latestGiven: known.findLast((entry) => entry.decision === 'given') ?? null,
		inFuture: inOrder.filter((entry) => entry.on > on)
	};
}

/** The consent state on a date of each person who has an entry. */
export function consentStates(consents: readonly Consent[], on: LocalDate): ReadonlyMap<string, ConsentState> {
	const byPerson = groupBy(consents, (entry) => entry.person);
	return new Map([...byPerson].map(([person, entries]) => [person, consentState(entries, on)]));
}
