import type { z } from 'zod';
import { jsonSchemaOf } from '../../document/json-schema';

/** One thing that a question takes beside the document: an option of its command, a field of its form. */
export interface AnswerOption {
	/** The key of the parameter. */
	readonly name: string;
	readonly description: string;
	/** `document`: another rollout document, which the command line takes as a second file. */
	readonly kind: 'text' | 'number' | 'document';
	readonly isRequired: boolean;
	/** What it counts as where it is left out; undefined where that is nothing. */
	readonly fallback: unknown;
	/** `date` or what else JSON Schema calls the form of the text. */
	readonly format: string | undefined;
	/** Texts that show the form. */
	readonly examples: readonly unknown[];
}

interface Property {
	readonly description?: string;
	readonly type?: string;
	readonly default?: unknown;
	readonly format?: string;
	readonly examples?: readonly unknown[];
}

/** What a question takes, in the order in which it is defined; help pages and the command line are made from it. */
export function optionsOf(params: z.ZodType): readonly AnswerOption[] {
	const schema = jsonSchemaOf(params);
	const properties = (schema['properties'] ?? {}) as Readonly<Record<string, Property>>;
	const required = (schema['required'] ?? []) as readonly string[];
	return Object.entries(properties).map(([name, property]) => ({
		name,
		description: property.description ?? '',
		kind: kindOf(property.type),
		isRequired: required.includes(name) && property.default === undefined,
		fallback: property.default,
		format: property.format,
		examples: property.examples ?? []
	}));
}

function kindOf(type: string | undefined): AnswerOption['kind'] {
	if (type === undefined) return 'document';
	return type === 'number' || type === 'integer' ? 'number' : 'text';
}
