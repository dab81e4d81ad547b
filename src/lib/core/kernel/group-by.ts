/** Entries by the key that each has, in the order given; keys in the order of their first entry. */
export function groupBy<T, K>(entries: Iterable<T>, keyOf: (entry: T) => K): Map<K, T[]> {
	const groups = new Map<K, T[]>();
	for (const entry of entries) {
		const key = keyOf(entry);
		const group = groups.get(key);
		if (group === undefined) groups.set(key, [entry]);
		else group.push(entry);
	}
	return groups;
}
