import { type SpanSet, union } from '../calendar/spans';
import { remembered } from '../kernel/remembered';

/** Doors (by place) that may be opened at exactly the same instants. */
export interface DoorSet {
	readonly doors: readonly number[];
	readonly spans: SpanSet;
}

/** Doors whose access is the union of the same parts, with that union; empty ones left out. */
export function gatheredByParts(partsByDoor: ReadonlyMap<number, ReadonlySet<SpanSet>>): DoorSet[] {
	const placeByPart = new Map<SpanSet, number>();
	const sets = new Map<string, { doors: number[]; parts: ReadonlySet<SpanSet> }>();
	for (const [door, parts] of partsByDoor) {
		const places = [...parts].map((part) => remembered(placeByPart, part, () => placeByPart.size));
		const key = places.sort((a, b) => a - b).join();
		remembered(sets, key, () => ({ doors: [] as number[], parts })).doors.push(door);
	}
	return [...sets.values()]
		.map(({ doors, parts }) => ({ doors, spans: union(...parts) }))
		.filter((set) => set.spans.length > 0);
}
