import type { z } from 'zod';
import { collections, links } from '$lib/core/document/collections';
import { jsonSchemaOf } from '$lib/core/document/json-schema';
import { rolloutSchema } from '$lib/core/document/schema';

/** A key of an object of the document. */
export interface KeyReference {
	readonly key: string;
	/** What it takes: "text", "list of door ids", "object, see below". */
	readonly takes: string;
	readonly isRequired: boolean;
	/** What it counts as when left out, as JSON; none for a required key, empty where that is a whole object. */
	readonly fallback: string | null;
	readonly description: string;
	/** Section that tells the keys of the object or of the entries. */
	readonly section: string | undefined;
}

/** An object of the document, where it stands and which keys it has. */
export interface ObjectReference {
	/** Path from the root: `doors[]`, `site`; `$` for the document itself. */
	readonly path: string;
	readonly description: string;
	readonly keys: readonly KeyReference[];
}

interface JsonSchema {
	readonly type?: string | readonly string[];
	readonly const?: unknown;
	readonly enum?: readonly unknown[];
	readonly properties?: Readonly<Record<string, JsonSchema>>;
	readonly required?: readonly string[];
	readonly items?: JsonSchema;
	readonly prefixItems?: readonly JsonSchema[];
	readonly additionalProperties?: JsonSchema | boolean;
	readonly anyOf?: readonly JsonSchema[];
	readonly minimum?: number;
	readonly maximum?: number;
	readonly title?: string;
	readonly description?: string;
}

/** The whole document as a reference, made from its schema: each object in the order in which it is first met. */
export function documentReference(): ObjectReference[] {
	const sections: ObjectReference[] = [];
	gather('$', '', jsonSchemaOf(rolloutSchema), rolloutSchema, sections);
	return sections;
}

function gather(
	path: string,
	description: string,
	schema: JsonSchema,
	source: z.ZodType,
	sections: ObjectReference[]
): void {
	const shape = shapeOf(source);
	const below: (() => void)[] = [];
	const keys = Object.entries(schema.properties ?? {}).map(([key, value]): KeyReference => {
		const at = path === '$' ? key : `${path}.${key}`;
		const own = withoutNull(value);
		const inner = own.items ? withoutNull(own.items) : own;
		const section = inner.properties ? (own.items ? `${at}[]` : at) : undefined;
		const field = shape[key];
		if (section !== undefined && field) {
			const about = value.description ?? collectionWords(at);
			below.push(() => gather(section, about, inner, field, sections));
		}
		return {
			key,
			takes: takesOf(own, at),
			isRequired: schema.required?.includes(key) === true,
			fallback: field ? fallbackOf(field) : null,
			description: value.description ?? own.description ?? '',
			section
		};
	});
	sections.push({ path, description, keys });
	for (const go of below) go();
}

/** A schema without the alternative that it is null. */
function withoutNull(schema: JsonSchema): JsonSchema {
	const others = schema.anyOf?.filter((one) => one.type !== 'null');
	return others?.length === 1 && others[0]
		? { ...others[0], ...(schema.description ? { description: schema.description } : {}) }
		: schema;
}

function takesOf(schema: JsonSchema, at: string): string {
	const linked = links.find((link) => link.at === at || link.at === `${at}[]`);
	if (schema.items) {
		const entry = linked ? `ids of ${manyOf(collections[linked.to].one)}` : pluralOf(withoutNull(schema.items), at);
		return `list of ${entry}`;
	}
	if (schema.prefixItems) return `list of two ids`;
	if (linked) return `id of ${collections[linked.to].a}`;
	return oneOf(schema, at);
}

function oneOf(schema: JsonSchema, at: string): string {
	if (schema.const !== undefined) return JSON.stringify(schema.const);
	if (schema.enum) return schema.enum.map((value) => JSON.stringify(value)).join(', ');
	if (schema.anyOf) {
		return schema.anyOf
			.filter((one) => one.type !== 'null')
			.map((one) => (one.items ? `list of ${pluralOf(one.items, at)}` : oneOf(one, at)))
			.join(', or ');
	}
	if (schema.properties) return 'object';
	if (typeof schema.additionalProperties === 'object') {
		return `object from words to ${oneOf(withoutNull(schema.additionalProperties), at)}`;
	}
	if (schema.title !== undefined) return schema.title;
	const type =
		typeof schema.type === 'string' ? schema.type : (schema.type?.find((one) => one !== 'null') ?? 'any value');
	const words = { string: 'text', boolean: 'true or false', integer: 'whole number', number: 'number' }[type] ?? type;
	return words + boundsOf(schema);
}

function boundsOf({ minimum, maximum }: JsonSchema): string {
	const most = maximum === undefined || maximum >= Number.MAX_SAFE_INTEGER ? undefined : maximum;
	if (minimum !== undefined && most !== undefined) return `, ${minimum} to ${most}`;
	return minimum === undefined ? '' : `, ${minimum} or more`;
}

function pluralOf(schema: JsonSchema, at: string): string {
	if (schema.properties) return 'objects';
	if (schema.title === 'stretch') return 'stretches';
	return schema.title === undefined ? oneOf(schema, at).replace(/^text$/, 'texts') : `${schema.title}s`;
}

function collectionWords(at: string): string {
	const found = Object.values(collections).find((collection) => collection.path === at);
	return found ? `Each entry is ${found.a}.` : '';
}

function manyOf(one: string): string {
	return one === 'person' ? 'people' : `${one}s`;
}

/** The keys of an object schema, looked for through lists, defaults and transforms. */
function shapeOf(schema: z.ZodType): Readonly<Record<string, z.ZodType>> {
	const definition = schema.def as {
		readonly shape?: Readonly<Record<string, z.ZodType>>;
		readonly in?: z.ZodType;
		readonly innerType?: z.ZodType;
		readonly element?: z.ZodType;
	};
	if (definition.shape) return definition.shape;
	const inner = definition.in ?? definition.innerType ?? definition.element;
	return inner ? shapeOf(inner) : {};
}

/** Asks the schema itself what a missing key counts as. */
function fallbackOf(schema: z.ZodType): string | null {
	const read = schema.safeParse(undefined);
	if (!read.success) return null;
	const isObject = typeof read.data === 'object' && read.data !== null && !Array.isArray(read.data);
	return isObject ? '' : JSON.stringify(read.data ?? null);
}
