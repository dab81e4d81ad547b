import { type Fault, fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import type { KnownOutside } from './read';
import { type CollectionName, collections, links } from './collections';
import { fieldOf, placesAt } from './walk';

/**
 * Faults of ids, found in a value of any shape so that they are told together with everything else: an id that stands
 * twice in its list (told at the second), a name that no entry bears, a reader on another controller than its door's.
 */
export function findLinkFaults(root: unknown, known: KnownOutside): Fault[] {
	const idsByCollection = new Map<CollectionName, Set<string>>();
	const faults: Fault[] = [];
	for (const [name, collection] of Object.entries(collections)) {
		if (collection.key !== 'id') continue;
		const ids = new Set<string>();
		for (const { steps, value } of placesAt(root, `${collection.path}[]`)) {
			const id = fieldOf(value, 'id');
			if (typeof id !== 'string') continue;
			if (ids.has(id)) faults.push(fault([...steps, 'id'], id, `an id that no other ${collection.one} has`));
			ids.add(id);
		}
		idsByCollection.set(name as CollectionName, ids);
	}
	for (const { at, to } of links) {
		const ids = idsByCollection.get(to) ?? new Set<string>();
		for (const { steps, value } of placesAt(root, at)) {
			if (typeof value !== 'string' || ids.has(value)) continue;
			faults.push(fault(steps, value, `the id of ${collections[to].a}`, nearestName(value, ids)));
		}
	}
	const regimes = [...known.regimes];
	for (const { steps, value } of placesAt(root, 'privacy.regimes[]')) {
		if (typeof value !== 'string' || regimes.includes(value)) continue;
		faults.push(fault(steps, value, `a rule pack: ${regimes.join(', ')}`, nearestName(value, regimes)));
	}
	return [...faults, ...readersElsewhere(root)];
}

function readersElsewhere(root: unknown): Fault[] {
	const controllerByDoor = new Map<unknown, unknown>(
		placesAt(root, 'doors[]').map(({ value }) => [fieldOf(value, 'id'), fieldOf(value, 'controller') ?? null])
	);
	return placesAt(root, 'readers[]').flatMap(({ steps, value }) => {
		const controller = fieldOf(value, 'controller');
		const door = fieldOf(value, 'door');
		const ofDoor = controllerByDoor.get(door);
		if (typeof controller !== 'string' || typeof ofDoor !== 'string' || ofDoor === controller) return [];
		return [fault([...steps, 'controller'], controller, `${JSON.stringify(ofDoor)}, the controller of its door`)];
	});
}
