/**
 * Every place at which a template is to be looked for: these places, and whatever is said to copy one of them, however many
 * steps away; each once, in that order.
 */
export function placesWithCopies(
	places: readonly string[],
	copiers: readonly { readonly id: string; readonly copies?: readonly string[] | null | undefined }[]
): string[] {
	const found = new Set(places);
	// A set grows while it is walked through.
	for (const place of found) {
		for (const { id, copies } of copiers) if (copies?.includes(place)) found.add(id);
	}
	return [...found];
}
