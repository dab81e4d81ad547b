/** The value of a key, made and kept when it is asked for the first time. */
export function remembered<K, V>(values: Map<K, V>, key: K, make: () => V): V {
	let value = values.get(key);
	if (value === undefined) {
		value = make();
		values.set(key, value);
	}
	return value;
}

/** True when two lists hold the same objects in the same order: what was made of the one holds for the other. */
export function isSameList(a: readonly unknown[], b: readonly unknown[]): boolean {
	if (a === b) return true;
	if (a.length !== b.length) return false;
	for (let place = 0; place < a.length; place++) if (a[place] !== b[place]) return false;
	return true;
}
