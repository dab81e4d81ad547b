import { type Fault, fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { type KnownOutside, mostFaults } from './known-outside';
import { type CollectionName, collections, links } from './collections';
import { remembered } from '../kernel/remembered';
import { collectionNames, isSameList } from './lists';
import { eachPlace, fieldOf, placesAt } from './walk';

/**
 * Faults of ids, found in a value of any shape so that they are told together with everything else: an id that stands
 * twice in its list (told at the second), a name that no entry bears, a reader on another controller than its door's.
 * `before`: a document without faults; lists that are the same objects there are not looked through again.
 */
export function findLinkFaults(root: unknown, known: KnownOutside, before?: unknown): Fault[] {
	const isUnchanged = (path: string) => isSameList(root, before, path);
	const faults: Fault[] = [];
	const offer = nearestNames();
	const idsOf = (name: CollectionName): Set<string> => {
		const collection = collections[name];
		const ids = new Set<string>();
		eachPlace(root, `${collection.path}[]`, (entry, stepsTo) => {
			const id = fieldOf(entry, 'id');
			if (typeof id !== 'string') return;
			if (ids.has(id)) faults.push(fault([...stepsTo(), 'id'], id, `an id that no other ${collection.one} has`));
			ids.add(id);
		});
		return ids;
	};
	const idsByCollection = new Map<CollectionName, Set<string>>();
	for (const name of collectionNames) {
		if (collections[name].key !== 'id' || isUnchanged(collections[name].path)) continue;
		idsByCollection.set(name, idsOf(name));
	}
	for (const { at, to } of links) {
		if (isUnchanged(at.slice(0, at.indexOf('['))) && isUnchanged(collections[to].path)) continue;
		const ids = remembered(idsByCollection, to, () => idsOf(to));
		eachPlace(root, at, (id, stepsTo) => {
			if (typeof id !== 'string' || ids.has(id) || faults.length >= mostFaults) return;
			faults.push(fault(stepsTo(), id, `the id of ${collections[to].a}`, offer(id, ids)));
		});
	}
	const regimes = [...known.regimes];
	for (const { steps, value } of placesAt(root, 'privacy.regimes[]')) {
		if (typeof value !== 'string' || regimes.includes(value)) continue;
		faults.push(fault(steps, value, `a rule pack: ${regimes.join(', ')}`, nearestName(value, regimes)));
	}
	return [...faults, ...readersElsewhere(root)];
}

/** How many names are looked through in all: a document of which nothing fits would otherwise take minutes. */
const mostCompared = 2_000_000;

/** Offers the nearest name, each mistyped one looked up once, until `mostCompared` names were looked through. */
function nearestNames(): (name: string, known: ReadonlySet<string>) => string | undefined {
	const offered = new Map<ReadonlySet<string>, Map<string, string | undefined>>();
	let compared = 0;
	return (name, known) => {
		const ofKnown = offered.get(known) ?? new Map<string, string | undefined>();
		offered.set(known, ofKnown);
		if (ofKnown.has(name)) return ofKnown.get(name);
		if (compared > mostCompared) return undefined;
		compared += known.size;
		const nearest = nearestName(name, known);
		ofKnown.set(name, nearest);
		return nearest;
	};
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
