import type { Span, SpanSet } from '../calendar/spans';
import { type Building, stepsFromOutside } from './building';

/**
 * When somebody can reach which area, from when they may open which door.
 *
 * The idea: the doors that may be open together repeat week after week, so the sets of open doors that really occur are few.
 * The time line is swept once over the starts and ends of the spans; the current set of open doors is a node of an automaton
 * that is built as it is walked, and each node computes its reach once. Doors with the same span set move together.
 * Invariant: between two events the reach is that of the node. Cost: events x areas, plus one search per distinct node.
 * Our own.
 */

/** Doors (by place) that may be opened at exactly the same instants. */
export interface DoorSet {
	readonly doors: readonly number[];
	readonly spans: SpanSet;
}

interface Node {
	readonly open: Uint8Array;
	readonly reach: Uint8Array;
	readonly next: Map<number, Node>;
}

/** The instants in `window` at which each area can be reached, by the area's place. */
export function reachSpans(building: Building, doorSets: readonly DoorSet[], window: Span): SpanSet[] {
	const nodes = new Map<string, Node>();
	const openDoors = new Uint8Array(building.doors.length);
	const nodeOf = (open: Uint8Array): Node => {
		const key = open.join('');
		const known = nodes.get(key);
		if (known) return known;
		openDoors.fill(0);
		open.forEach((isOpen, set) => {
			if (isOpen) for (const door of doorSets[set]?.doors ?? []) openDoors[door] = 1;
		});
		const reach = new Uint8Array(building.areaIds.length);
		for (const area of stepsFromOutside(building, (door) => openDoors[door] === 1).keys()) reach[area] = 1;
		const node: Node = { open, reach, next: new Map() };
		nodes.set(key, node);
		return node;
	};
	const toggled = (node: Node, set: number): Node => {
		let next = node.next.get(set);
		if (!next) {
			const open = Uint8Array.from(node.open);
			open[set] = 1 - (open[set] as number);
			next = nodeOf(open);
			node.next.set(set, next);
		}
		return next;
	};

	const spansByArea: Span[][] = building.areaIds.map(() => []);
	const since = new Float64Array(building.areaIds.length).fill(NaN);
	let reached = new Uint8Array(building.areaIds.length);
	const settle = (reach: Uint8Array, at: number) => {
		if (reach === reached) return;
		for (let area = 0; area < reach.length; area++) {
			if (reach[area] === reached[area]) continue;
			if (reach[area] === 1) since[area] = at;
			else spansByArea[area]?.push({ from: since[area] as number, to: at });
		}
		reached = reach as Uint8Array<ArrayBuffer>;
	};

	let node = nodeOf(new Uint8Array(doorSets.length));
	let at = window.from;
	for (const event of eventsOf(doorSets, window)) {
		if (event.at !== at) {
			settle(node.reach, at);
			at = event.at;
		}
		node = toggled(node, event.set);
	}
	settle(node.reach, at);
	settle(new Uint8Array(building.areaIds.length), window.to);
	return spansByArea.map((spans) => spans.filter((span) => span.from < span.to));
}

/** Starts and ends inside the window, sorted by time; a start before the window counts at its beginning. */
function eventsOf(doorSets: readonly DoorSet[], window: Span): { at: number; set: number }[] {
	const events: { at: number; set: number }[] = [];
	doorSets.forEach(({ spans }, set) => {
		for (const span of spans) {
			if (span.to <= window.from || span.from >= window.to) continue;
			events.push({ at: Math.max(span.from, window.from), set });
			if (span.to < window.to) events.push({ at: span.to, set });
		}
	});
	return events.sort((a, b) => a.at - b.at);
}
