import { type LocalDate, dateOf, epochDayOf, plusDays } from '../calendar/local-date';
import { collections, links } from '../document/collections';
import { collectionNames, entriesOf, withEntries } from '../document/lists';
import type { Rollout, RolloutDocument } from '../document/schema';
import { fieldOf } from '../document/walk';
import { groupBy } from '../kernel/group-by';
import type { TextNeedles } from '../kernel/text-needles';
import { covers, placesLeft } from './template-state';

/** Why a person is not removed yet. */
export type StayReason = 'template' | 'hold' | 'request';

/** Somebody who is, or will be, removed from the rollout. */
export interface RemovalLine {
	readonly person: string;
	/** The go-live that counts: of the wave, else the last of the site; null where there is none. */
	readonly goLive: LocalDate | null;
	/** The day on which the person is to be removed; null where neither days nor go-live say so. */
	readonly removeOn: LocalDate | null;
	readonly isDue: boolean;
	readonly stays: readonly StayReason[];
}

/**
 * Who is to be removed on a day: everybody whose go-live is so many days past. Nobody goes while a template lies somewhere, a
 * hold covers the day, or a request waits for its answer: the records of these are what proves that all was done.
 */
export function removalLines({ people, enrollment, privacy }: Rollout, on: LocalDate): RemovalLine[] {
	const days = privacy.office?.removePeopleAfterDays ?? null;
	const goLives = new Map(enrollment.waves.map(({ id, goLive }) => [id, goLive]));
	const last =
		enrollment.waves
			.flatMap(({ goLive }) => goLive ?? [])
			.sort()
			.at(-1) ?? null;
	const templates = groupBy(privacy.templates, ({ person }) => person);
	const held = new Set(privacy.holds.filter((hold) => covers(hold, on)).map(({ person }) => person));
	const asking = new Set(
		privacy.requests.filter(({ answeredOn }) => answeredOn === null || answeredOn > on).map(({ person }) => person)
	);
	return people.map(({ id, wave }) => {
		const ofWave = wave === null ? undefined : goLives.get(wave);
		const goLive = ofWave ?? last;
		const removeOn = days === null || goLive === null ? null : dateOf(plusDays(epochDayOf(goLive), days));
		const stays: StayReason[] = [
			...((templates.get(id) ?? []).some((one) => placesLeft(one, on).length > 0) ? (['template'] as const) : []),
			...(held.has(id) ? (['hold'] as const) : []),
			...(asking.has(id) ? (['request'] as const) : [])
		];
		return { person: id, goLive, removeOn, isDue: removeOn !== null && removeOn <= on, stays };
	});
}

/** What stands where somebody who was removed was named. */
export const removedPerson = '(removed)';

/**
 * A document without some people: they, every entry about them, and their names in other entries' words are gone. An assignment
 * that named nobody else goes as well.
 */
export function withoutPeople(
	document: RolloutDocument,
	people: ReadonlySet<string>,
	needles: TextNeedles
): RolloutDocument {
	const about = links.filter(({ to, at }) => to === 'people' && at.endsWith('[].person')).map(({ at }) => at);
	let left = withEntries(
		document,
		'people',
		entriesOf(document, 'people').filter(({ id }) => !people.has(id))
	);
	for (const name of collectionNames) {
		if (!about.includes(`${collections[name].path}[].person`)) continue;
		const entries = entriesOf(left, name);
		const kept = entries.filter((entry) => !people.has(String(fieldOf(entry, 'person'))));
		if (kept.length < entries.length) left = withEntries(left, name, kept);
	}
	const assignments = entriesOf(left, 'assignments').flatMap((one) => {
		const named = one.who.people ?? [];
		const rest = named.filter((id) => !people.has(id));
		if (rest.length === named.length) return [one];
		const { everyone, departments, jobs, waves } = one.who;
		const others = everyone === true || [rest, departments, jobs, waves].some((list) => (list ?? []).length > 0);
		return others ? [{ ...one, who: { ...one.who, people: rest } }] : [];
	});
	return withoutNames(withEntries(left, 'assignments', assignments), needles) as RolloutDocument;
}

/** Keys whose text is words, not a name of another entry, a date or a code. */
const wordKeys: ReadonlySet<string> = new Set([
	...['name', 'owner', 'approvedBy', 'by', 'evidence', 'reason', 'method', 'witness', 'identityCheckedHow', 'channel'],
	...[
		'extensionReason',
		'answer',
		'signature',
		'reference',
		'alternative',
		'secondBy',
		'openedBy',
		'module',
		'contact'
	],
	...[
		'email',
		'phone',
		'bring',
		'controller',
		'address',
		'officer',
		'purpose',
		'recipients',
		'safeguards',
		'publishedAt'
	],
	...['term', 'department', 'job']
]);

function withoutNames(value: unknown, needles: TextNeedles, key = ''): unknown {
	if (typeof value === 'string') return wordKeys.has(key) ? needles.replaced(value, removedPerson) : value;
	if (Array.isArray(value)) {
		const after = value.map((one: unknown) => withoutNames(one, needles, key));
		return after.some((one, place) => one !== value[place]) ? after : value;
	}
	if (typeof value !== 'object' || value === null) return value;
	const entries = Object.entries(value);
	const after = entries.map(([name, one]) => [name, withoutNames(one, needles, name)] as const);
	return after.some(([, one], place) => one !== entries[place]?.[1]) ? Object.fromEntries(after) : value;
}
