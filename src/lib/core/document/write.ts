import { collections } from './collections';
import type { RolloutDocument } from './schema';

const lists: ReadonlySet<string> = new Set(Object.values(collections).map((collection) => collection.path));
const groups = new Set(['', 'enrollment', 'privacy', 'holidays']);

/**
 * A document as the text of its file: each part and each entry of a list on a line of its own, so that two states can be
 * compared line by line. What is read back is the same JSON value; ends with a line feed.
 */
export function writeDocument(document: RolloutDocument): string {
	return `${written(document, '', '')}\n`;
}

function written(value: unknown, path: string, indent: string): string {
	const inner = `${indent}\t`;
	if (Array.isArray(value) && value.length > 0 && lists.has(path)) {
		return `[\n${value.map((entry) => inner + JSON.stringify(entry)).join(',\n')}\n${indent}]`;
	}
	if (groups.has(path) && typeof value === 'object' && value !== null && !Array.isArray(value)) {
		const fields = Object.entries(value).map(([key, field]) => {
			const below = path === '' ? key : `${path}.${key}`;
			return `${inner}${JSON.stringify(key)}: ${written(field, below, inner)}`;
		});
		return fields.length === 0 ? '{}' : `{\n${fields.join(',\n')}\n${indent}}`;
	}
	return JSON.stringify(value);
}
