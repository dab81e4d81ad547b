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
	let places: Place[] = [{ steps: [], value: root }];
	for (const part of pattern.split('.')) {
		const isList = part.endsWith('[]');
		const key = isList ? part.slice(0, -2) : part;
		places = places.flatMap(({ steps, value }): Place[] => {
			const below = key === '' ? value : fieldOf(value, key);
			const at = key === '' ? steps : [...steps, key];
			if (!isList) return below === undefined || below === null ? [] : [{ steps: at, value: below }];
			if (!Array.isArray(below)) return [];
			return below.map((entry: unknown, index) => ({ steps: [...at, index], value: entry }));
		});
	}
	return places;
}

/** An own field of a value, undefined where there is none. */
export function fieldOf(value: unknown, key: string): unknown {
	if (typeof value !== 'object' || value === null || Array.isArray(value) || !Object.hasOwn(value, key)) return undefined;
	return (value as Record<string, unknown>)[key];
}
