import type { Attribute } from './attribute';
import { type Json, type JsonObject, isObject } from './scim-result';
import { commonAttributes, userSchema, userSchemas, userUrn } from './user-schemas';

/** The path of an attribute as it is written: a URN may stand before it, a sub-attribute after it. */
export interface AttributePath {
	readonly urn?: string;
	readonly name: string;
	readonly sub?: string;
}

/** An attribute that was found: under which key of the resource it lies (undefined: at the top). */
export interface Resolved {
	readonly extension: string | undefined;
	/** Undefined where the extension as a whole is meant. */
	readonly attribute: Attribute | undefined;
	readonly sub: Attribute | undefined;
}

/** Looks up a name among attributes, capitals aside. @source RFC 7643, section 2.1: attribute names are case insensitive */
export function findAttribute(attributes: readonly Attribute[], name: string): Attribute | undefined {
	const wanted = name.toLowerCase();
	return attributes.find((one) => one.name.toLowerCase() === wanted);
}

/** What a path means in a user; undefined where no schema has it. */
export function resolvePath({ urn, name, sub }: AttributePath): Resolved | undefined {
	if (urn !== undefined) {
		const whole = `${urn}:${name}`.toLowerCase();
		const extension = userSchemas.find((schema) => schema.id !== userUrn && schema.id.toLowerCase() === whole);
		if (extension) return sub === undefined ? { extension: extension.id, attribute: undefined, sub } : undefined;
	}
	const schema = urn === undefined ? userSchema : userSchemas.find(({ id }) => id.toLowerCase() === urn.toLowerCase());
	if (!schema) return undefined;
	const isCore = schema.id === userUrn;
	const own = isCore ? [...commonAttributes, ...schema.attributes] : schema.attributes;
	const attribute = findAttribute(own, name);
	if (!attribute) return undefined;
	const subAttribute = sub === undefined ? undefined : findAttribute(attribute.subAttributes ?? [], sub);
	if (sub !== undefined && !subAttribute) return undefined;
	return { extension: isCore ? undefined : schema.id, attribute, sub: subAttribute };
}

/** The value of an attribute of a resource, without its sub-attribute. */
export function valueAt(resource: JsonObject, { extension, attribute }: Resolved): Json | undefined {
	const holder = extension === undefined ? resource : resource[extension];
	if (!attribute) return holder;
	return isObject(holder) ? holder[attribute.name] : undefined;
}

/** Every single value that a path leads to: each of several, and by default the `value` of complex ones. */
export function valuesAt(resource: JsonObject, path: Resolved): readonly Json[] {
	const found = valueAt(resource, path);
	const all = Array.isArray(found) ? (found as readonly Json[]) : found === undefined ? [] : [found];
	const sub = path.sub ?? valueSub(path.attribute);
	if (!sub) return all;
	return all.flatMap((one) => (isObject(one) ? [one[sub.name] ?? null] : []));
}

/** The sub-attribute that is meant where none is named. @source RFC 7643, section 2.4 */
function valueSub(attribute: Attribute | undefined): Attribute | undefined {
	return attribute?.multiValued ? findAttribute(attribute.subAttributes ?? [], 'value') : undefined;
}
