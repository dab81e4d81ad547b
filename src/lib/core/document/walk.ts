import type { PathStep } from '../kernel/fault';

/** A value of a document that may be anything, and where it stands. */
export interface Place {
	readonly steps: readonly PathStep[];
	readonly value: unknown;
}

/**
 * Every place that a pattern points at in a value that need not have the right shape: what is not there is passed over.
 * Patterns are keys joined by dots, `[]` after a key for each entry of its list.
 * @example placesAt(document, 'enrollment.stations[].open[].date')
 */
export function placesAt(root: unknown, pattern: string): Place[] {
	const places: Place[] = [];
	eachPlace(root, pattern, (value, stepsTo) => places.push({ steps: stepsTo(), value }));
	return places;
}

/**
 * Visits the places of `placesAt` without making a list of them: `stepsTo` tells where the place is, for the few for
 * which that is needed.
 */
export function eachPlace(
	root: unknown,
	pattern: string,
	visit: (value: unknown, stepsTo: () => readonly PathStep[]) => void
): void {
	const parts = pattern.split('.').map((part) => ({ key: part.replace(/\[\]$/, ''), isList: part.endsWith('[]') }));
	const steps: PathStep[] = [];
	const stepsTo = () => [...steps];
	const walk = (value: unknown, depth: number): void => {
		const part = parts[depth];
		if (part === undefined) {
			visit(value, stepsTo);
			return;
		}
		const below = part.key === '' ? value : fieldOf(value, part.key);
		if (below === undefined || below === null) return;
		if (part.key !== '') steps.push(part.key);
		if (!part.isList) walk(below, depth + 1);
		else if (Array.isArray(below)) {
			for (let index = 0; index < below.length; index++) {
				steps.push(index);
				walk(below[index], depth + 1);
				steps.pop();
			}
		}
		if (part.key !== '') steps.pop();
	};
	walk(root, 0);
}

/** An own field of a value, undefined where there is none. */
export function fieldOf(value: unknown, key: string): unknown {
	if (typeof value !== 'object' || value === null || Array.isArray(value) || !Object.hasOwn(value, key))
		return undefined;
	return (value as Record<string, unknown>)[key];
}
