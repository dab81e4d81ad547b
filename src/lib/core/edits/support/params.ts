import { z } from 'zod';

/** An entry or part as given: an object, looked at more closely when the whole document is. */
export const objectParam = z
	.custom<Readonly<Record<string, unknown>>>(
		(value) => typeof value === 'object' && value !== null && !Array.isArray(value),
		{ error: 'an object' }
	)
	.meta({ type: 'object' });

/** A list of entries as given. */
export const entriesParam = z.array(objectParam, { error: 'a list of objects' });
