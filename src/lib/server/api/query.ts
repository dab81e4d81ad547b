import type { z } from 'zod';
import { jsonSchemaOf } from '../../core/document/json-schema';
import { fieldOf } from '../../core/document/walk';

/**
 * The parameters of a question from an address: text, numbers where the question takes numbers, yes or no where it takes
 * those. Text that is none of these is left as it is, for the question to refuse. Of a name given twice the last counts.
 */
export function paramsOfQuery(schema: z.ZodType, query: URLSearchParams): Record<string, unknown> {
	const properties = fieldOf(jsonSchemaOf(schema), 'properties');
	return Object.fromEntries([...query].map(([key, text]) => [key, valueOf(fieldOf(properties, key), text)]));
}

function valueOf(schema: unknown, text: string): unknown {
	const type = fieldOf(schema, 'type');
	if ((type === 'number' || type === 'integer') && /^-?\d+(\.\d+)?$/.test(text)) return Number(text);
	if (type === 'boolean' && (text === 'true' || text === 'false')) return text === 'true';
	return text;
}

/** A whole number from an address, undefined where there is none or it is no such number. */
export function wholeNumber(text: string | null | undefined): number | undefined {
	return text !== null && text !== undefined && /^\d{1,15}$/.test(text) ? Number(text) : undefined;
}
