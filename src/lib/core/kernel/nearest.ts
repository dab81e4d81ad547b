import { distance } from 'fastest-levenshtein';

/**
 * The known name that a mistyped one most likely meant: fewest edits, at most a third of its length, rounded up,
 * case ignored; undefined when nothing is near. Among equals the first wins.
 * @source edit distance of Levenshtein (1966), library fastest-levenshtein; the limit of a third is ours
 */
export function nearestName(name: string, known: Iterable<string>): string | undefined {
	const wanted = name.toLowerCase();
	let best: string | undefined;
	let bestDistance = Math.ceil(name.length / 3) + 1;
	for (const candidate of known) {
		if (Math.abs(candidate.length - name.length) >= bestDistance) continue;
		const edits = distance(wanted, candidate.toLowerCase());
		if (edits < bestDistance) {
			best = candidate;
			bestDistance = edits;
		}
	}
	return best;
}
