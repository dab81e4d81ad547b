/**
 * JSON for people to read and for version control to compare: one entry of a list on one line, objects unfolded as long
 * as they do not fit on one.
 * @param {unknown} value
 * @param {string} [indent]
 * @returns {string}
 */
export function jsonText(value, indent = '') {
	const flat = oneLine(value);
	if (typeof value !== 'object' || value === null) return flat;
	const inner = `${indent}\t`;
	if (Array.isArray(value)) {
		const short = value.every((item) => typeof item !== 'object' || item === null);
		if (value.length === 0 || (short && flat.length <= 110)) return flat;
		return `[\n${value.map((item) => inner + itemText(item, inner)).join(',\n')}\n${indent}]`;
	}
	const parts = Object.entries(value).map(
		([key, item]) => `${inner}${JSON.stringify(key)}: ${memberText(item, inner)}`
	);
	return parts.length === 0 ? '{}' : `{\n${parts.join(',\n')}\n${indent}}`;
}

/**
 * @param {unknown} item
 * @param {string} indent
 */
function itemText(item, indent) {
	const flat = oneLine(item);
	return flat.length <= 400 ? flat : jsonText(item, indent);
}

/**
 * @param {unknown} item
 * @param {string} indent
 */
function memberText(item, indent) {
	const flat = oneLine(item);
	const isList = Array.isArray(item) && item.some((one) => typeof one === 'object');
	return flat.length <= 110 && !isList ? flat : jsonText(item, indent);
}

/**
 * @param {unknown} value
 * @returns {string}
 */
function oneLine(value) {
	if (Array.isArray(value)) return value.length === 0 ? '[]' : `[${value.map(oneLine).join(', ')}]`;
	if (typeof value === 'object' && value !== null) {
		const parts = Object.entries(value).map(([key, item]) => `${JSON.stringify(key)}: ${oneLine(item)}`);
		return parts.length === 0 ? '{}' : `{ ${parts.join(', ')} }`;
	}
	return JSON.stringify(value);
}
