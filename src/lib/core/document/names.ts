import type { Rollout } from './schema';

interface Named {
	readonly id: string;
	readonly name: string | null;
}

const nameByIdOfList = new WeakMap<readonly Named[], ReadonlyMap<string, string>>();

/** What people call an entry of a list: its name, else its id. */
export function nameOf(entries: readonly Named[], id: unknown): string {
	let names = nameByIdOfList.get(entries);
	if (!names) {
		names = new Map(entries.map((entry) => [entry.id, entry.name ?? entry.id]));
		nameByIdOfList.set(entries, names);
	}
	return names.get(String(id)) ?? String(id);
}

const entryByIdOfList = new WeakMap<readonly { readonly id: string }[], ReadonlyMap<string, unknown>>();

/** The entry of a list with an id; the list is looked through once, however often it is asked. */
export function entryOf<T extends { readonly id: string }>(entries: readonly T[], id: unknown): T | undefined {
	let byId = entryByIdOfList.get(entries);
	if (!byId) {
		byId = new Map(entries.map((entry) => [entry.id, entry]));
		entryByIdOfList.set(entries, byId);
	}
	return byId.get(String(id)) as T | undefined;
}

/** Who a person is, in a sentence: name and id. */
export function personName(rollout: Rollout, id: unknown): string {
	const name = nameOf(rollout.people, id);
	return name === id ? name : `${name} (${String(id)})`;
}

/** A list in a sentence: the first few, and how many more. */
export function listed(items: readonly string[], most = 3): string {
	const shown = items.slice(0, most);
	const more = items.length - shown.length;
	if (more > 0) return `${shown.join(', ')} and ${more} more`;
	if (shown.length < 2) return shown.join('');
	return `${shown.slice(0, -1).join(', ')} and ${shown.at(-1)}`;
}

/** `1 person`, `2 people`. */
export function counted(count: number, one: string, many = `${one}s`): string {
	return `${count} ${count === 1 ? one : many}`;
}
