import { z } from 'zod';
import { rolloutSchema } from './schema';

/**
 * The JSON Schema (2020-12) of the document as it is written: every key that may be left out is optional. It tells the
 * shape; that ids exist and dates stand in order is beyond it and checked on reading.
 */
export function documentJsonSchema(): Record<string, unknown> {
	return jsonSchemaOf(rolloutSchema);
}

/** The JSON Schema (2020-12) of what a schema takes. Checks of our own appear as their description and examples. */
export function jsonSchemaOf(schema: z.ZodType): Record<string, unknown> {
	return z.toJSONSchema(schema, {
		io: 'input',
		unrepresentable: 'any',
		target: 'draft-2020-12'
	});
}
