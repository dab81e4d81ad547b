/**
 * Gathers the default exports of a folder's modules under the key that each names itself by.
 * Throws when two share a key or a module has no default export: both are mistakes in the program, seen at start-up.
 * @example registryOf(import.meta.glob('./*.ts', { eager: true }), (check) => check.code)
 */
export function registryOf<T>(
	modules: Record<string, { readonly default?: T }>,
	keyOf: (entry: T) => string
): ReadonlyMap<string, T> {
	const entries = new Map<string, T>();
	for (const [file, module] of Object.entries(modules)) {
		const entry = module.default;
		if (entry === undefined) throw new Error(`${file} has no default export`);
		const key = keyOf(entry);
		if (entries.has(key)) throw new Error(`${file} repeats the key ${key}`);
		entries.set(key, entry);
	}
	return new Map([...entries].sort(([a], [b]) => (a < b ? -1 : 1)));
}
