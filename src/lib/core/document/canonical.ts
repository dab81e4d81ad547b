import { byCodeUnits } from '../kernel/compare';

/**
 * A JSON value as text that is the same for equal values: keys sorted by UTF-16 code units, no spaces. A lone surrogate
 * is written as an escape, where the standard refuses it, since free words may hold one.
 * @source RFC 8785, section 3.2 (JSON Canonicalization Scheme)
 */
export function canonicalJson(value: unknown): string {
	if (typeof value !== 'object' || value === null) return JSON.stringify(value ?? null);
	if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
	let text = '';
	for (const key of Object.keys(value).sort(byCodeUnits)) {
		const field = (value as Record<string, unknown>)[key];
		if (field !== undefined) text += `${text === '' ? '' : ','}${JSON.stringify(key)}:${canonicalJson(field)}`;
	}
	return `{${text}}`;
}

/** True when two JSON values say the same: the order of keys does not matter, that of entries does. */
export function isSameJson(a: unknown, b: unknown): boolean {
	return a === b || canonicalJson(a) === canonicalJson(b);
}
