import type { Person, Rollout } from '../document/schema';
import { TextNeedles } from '../kernel/text-needles';

/** Fields that tell who did something: about that person, not about the one whose record it is. */
const actors: ReadonlySet<string> = new Set([
	'by',
	'secondBy',
	'openedBy',
	'approvedBy',
	'witness',
	'identityCheckedBy'
]);

/** Fields whose text is free words, in which anybody may be named. */
const names: ReadonlySet<string> = new Set(['id', 'person', 'station', 'start', 'on', 'shiftPattern', 'accessProfile']);

/**
 * Takes other people out of a value about one person: fields that tell who acted are left out, and names, staff numbers and
 * e-mail addresses of other people in free words are replaced. What the person's own words share with them stays.
 */
export function outsideTexts(rollout: Rollout, person: Person, instead: string): (value: unknown) => unknown {
	const needles = new TextNeedles();
	const own = new Set(
		[person.id, person.name, person.email].flatMap((text) => (text === null ? [] : [text.toLowerCase()]))
	);
	for (const other of rollout.people) {
		if (other.id === person.id) continue;
		for (const text of [other.id, other.name, other.email]) {
			if (text !== null && !own.has(text.toLowerCase())) needles.add(text);
		}
	}
	const clean = (value: unknown, key: string): unknown => {
		if (typeof value === 'string') return names.has(key) ? value : needles.replaced(value, instead);
		if (Array.isArray(value)) return value.map((one: unknown) => clean(one, key));
		if (typeof value !== 'object' || value === null) return value;
		return Object.fromEntries(
			Object.entries(value).flatMap(([name, one]) => (actors.has(name) ? [] : [[name, clean(one, name)]]))
		);
	};
	return (value) => clean(value, '');
}
