/**
 * Lists that are typed: one entry per line, so that an entry may hold commas. This is how `ChipsInput` sends its chips,
 * with and without script.
 */

/** The entries of a typed list: trimmed, empty lines and repetitions left out, in the order typed. */
export function readLines(text: string): string[] {
	const entries = text.split(/\r\n|\r|\n/).map((line) => line.trim());
	return [...new Set(entries.filter((entry) => entry !== ''))];
}

/** A list as it is typed. */
export function writeLines(entries: readonly string[]): string {
	return entries.join('\n');
}
