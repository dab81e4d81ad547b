/**
 * A value with something else at each place that a pattern (as in `placesAt`) points at. Objects and lists in which
 * nothing changes are kept as the same objects.
 */
export function mapPlaces(root: unknown, pattern: string, change: (value: unknown) => unknown): unknown {
	return mapParts(root, pattern.split('.'), change);
}

function mapParts(value: unknown, parts: readonly string[], change: (value: unknown) => unknown): unknown {
	const [part, ...rest] = parts;
	if (part === undefined) return change(value);
	if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
	const key = part.endsWith('[]') ? part.slice(0, -2) : part;
	if (!Object.hasOwn(value, key)) return value;
	const before: unknown = (value as Record<string, unknown>)[key];
	const after = part.endsWith('[]') ? mapList(before, rest, change) : mapParts(before, rest, change);
	return after === before ? value : { ...value, [key]: after };
}

function mapList(list: unknown, rest: readonly string[], change: (value: unknown) => unknown): unknown {
	if (!Array.isArray(list)) return list;
	const after = list.map((entry: unknown) => mapParts(entry, rest, change));
	return after.some((entry, index) => entry !== list[index]) ? after : list;
}
