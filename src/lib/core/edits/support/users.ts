import { type CollectionName, collections, links } from '../../document/collections';
import { collectionNames } from '../../document/lists';
import type { RolloutDocument } from '../../document/schema';
import { placesAt } from '../../document/walk';
import { mapPlaces } from './map-places';

/** Entries of one list that name an entry. */
export interface Users {
	readonly collection: CollectionName;
	/** The entries, each once, in document order. */
	readonly entries: readonly unknown[];
}

/** Who names an entry: by list, in the order of the document; empty when nothing does. */
export function findUsers(document: RolloutDocument, name: CollectionName, id: string): readonly Users[] {
	const entriesByUser = new Map<CollectionName, Set<unknown>>();
	for (const { at, to } of links) {
		if (to !== name) continue;
		const user = listOfPattern(at);
		const below = at.slice(`${collections[user].path}[].`.length);
		for (const { value: entry } of placesAt(document, `${collections[user].path}[]`)) {
			if (!placesAt(entry, below).some((place) => place.value === id)) continue;
			const entries = entriesByUser.get(user) ?? new Set();
			entriesByUser.set(user, entries.add(entry));
		}
	}
	return collectionNames.flatMap((collection) => {
		const entries = entriesByUser.get(collection);
		return entries ? [{ collection, entries: [...entries] }] : [];
	});
}

/** The document with an entry named differently wherever it is named; the entry's own id stays. */
export function withNameChanged(
	document: RolloutDocument,
	name: CollectionName,
	from: string,
	to: string
): RolloutDocument {
	const patterns = links.filter((link) => link.to === name).map((link) => link.at);
	return [...patterns, ...placesOfTemplates(document, name, from)].reduce<RolloutDocument>(
		(changed, pattern) => mapPlaces(changed, pattern, (value) => (value === from ? to : value)) as RolloutDocument,
		document
	);
}

const devices = ['controllers', 'stations', 'readers'] as const;
const placeOwners = [...devices, 'templatePlaces'] as const;

/** Where a template lies is free text that often is the id of a device or a named place; it follows when only one bears it. */
function placesOfTemplates(document: RolloutDocument, name: CollectionName, id: string): readonly string[] {
	if (!placeOwners.some((owner) => owner === name)) return [];
	// What is told more of a controller or station as a place of templates follows it, and is no other place.
	const others = placeOwners.filter(
		(other) => other !== name && (other !== 'templatePlaces' || !devices.some((device) => device === name))
	);
	const isShared = others.some((other) =>
		placesAt(document, `${collections[other].path}[].id`).some((place) => place.value === id)
	);
	if (isShared) return [];
	return [
		'privacy.templates[].storedOn[]',
		'privacy.templates[].erasures[].from',
		'privacy.erasureOrders[].reports[].from',
		'privacy.places[].copies[]',
		...(name === 'templatePlaces' ? [] : ['privacy.places[].id'])
	];
}

function listOfPattern(pattern: string): CollectionName {
	const found = collectionNames.find((name) => pattern.startsWith(`${collections[name].path}[].`));
	if (found === undefined) throw new Error(`${pattern} is in no list`);
	return found;
}
