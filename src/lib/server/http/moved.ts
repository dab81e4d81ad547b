/** A list with one entry moved by a place, where there is one to move to; the list itself for an entry that it lacks. */
export function moved<T>(list: readonly T[], entry: T, by: 1 | -1): T[] {
	const at = list.indexOf(entry);
	const to = at + by;
	if (at === -1 || to < 0 || to >= list.length) return [...list];
	return list.toSpliced(at, 1).toSpliced(to, 0, entry);
}
