import { type CollectionName, collections } from '../../document/collections';
import { fieldOf } from '../../document/walk';

/** What tells an entry without an id apart from its like, in words. */
const told: Partial<Record<CollectionName, (entry: unknown) => string>> = {
	holidays: (entry) => joined(text(entry, 'date'), text(entry, 'name')),
	absences: (entry) => `of ${text(entry, 'person')}${since(entry)}`,
	walks: (entry) => {
		const between = fieldOf(entry, 'between');
		return `between ${Array.isArray(between) ? between.map(String).join(' and ') : '?'}`;
	},
	awayLimits: (entry) => `for ${text(entry, 'department')}`,
	bookings: (entry) =>
		`of ${text(entry, 'person')} at ${text(entry, 'station')}, ${text(entry, 'start').replace('T', ' ')}`,
	consents: (entry) => `of ${text(entry, 'person')}, ${text(entry, 'decision')} on ${text(entry, 'on')}`,
	templates: (entry) => `of ${text(entry, 'person')}, enrolled on ${text(entry, 'enrolledOn')}`,
	holds: (entry) => `on ${text(entry, 'person')}${since(entry)}`,
	erasureOrders: (entry) => `${text(entry, 'id')} of ${text(entry, 'person')}`
};

/** An entry as people call it: `door main`, `booking of 1001 at s1, 2027-01-11 08:00`. */
export function entryTitle(name: CollectionName, entry: unknown): string {
	return `${collections[name].one} ${told[name]?.(entry) ?? text(entry, 'id')}`;
}

/** With a capital letter, as a sentence begins. */
export function capitalized(sentence: string): string {
	return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}

function text(entry: unknown, key: string): string {
	const value = fieldOf(entry, key);
	return typeof value === 'string' ? value : '';
}

function joined(...parts: readonly string[]): string {
	return parts.filter((part) => part !== '').join(' ');
}

function since(entry: unknown): string {
	const from = text(entry, 'from');
	return from === '' ? '' : ` from ${from}`;
}
