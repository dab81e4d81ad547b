/** The value of a key, made and kept when it is asked for the first time. */
export function remembered<K, V>(values: Map<K, V>, key: K, make: () => V): V {
	let value = values.get(key);
	if (value === undefined) {
		value = make();
		values.set(key, value);
	}
	return value;
}
