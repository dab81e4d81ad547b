import { parseAttributePath } from './parse-filter';
import { inOrder, readValue } from './read-value';
import { type Resolved, resolvePath } from './resolve';
import { type Json, type JsonObject, type ScimResult, given, isObject, wrong } from './scim-result';
import { commonAttributes, userSchema, userSchemas, userUrn } from './user-schemas';

/**
 * Reads a user as it is created or replaced. What the server gives out (`id`, `meta`) and what no schema has is passed over.
 * Refuses a body that is no user, a missing user name and values of a wrong type.
 * @source RFC 7644, sections 3.3 and 3.5.1; RFC 7643, section 3
 */
export function readUser(body: Json): ScimResult<JsonObject> {
	if (!isObject(body)) return wrong('invalidSyntax', 'The body is no JSON object.');
	const schemas = Object.entries(body).find(([key]) => key.toLowerCase() === 'schemas')?.[1];
	const urns = Array.isArray(schemas) ? (schemas as readonly Json[]) : [];
	if (!urns.some((urn) => typeof urn === 'string' && urn.toLowerCase() === userUrn.toLowerCase())) {
		return wrong('invalidSyntax', `schemas must name ${userUrn}.`);
	}
	const user: Record<string, Json> = {};
	const seen = new Set<string>();
	for (const [path, value] of entriesOf(body)) {
		const { extension, attribute } = path;
		if (!attribute || attribute.mutability === 'readOnly') continue;
		const place = extension === undefined ? attribute.name : `${extension}:${attribute.name}`;
		if (seen.has(place)) return wrong('invalidSyntax', `${place} stands twice in the body.`);
		seen.add(place);
		const read = readValue(attribute, value, attribute.name);
		if (!read.ok) return read;
		if (read.value === undefined) continue;
		if (extension === undefined) user[attribute.name] = read.value;
		else user[extension] = { ...(user[extension] as JsonObject | undefined), [attribute.name]: read.value };
	}
	return checkUser(user);
}

/**
 * What an object names, attribute by attribute: extensions as objects under their URN, or each attribute with the URN before it,
 * as some identity providers write. What no schema has is left out.
 */
export function entriesOf(body: JsonObject): readonly (readonly [Resolved, Json])[] {
	return Object.entries(body).flatMap(([key, value]): (readonly [Resolved, Json])[] => {
		if (value === undefined) return [];
		const parsed = parseAttributePath(key);
		const path = extensionOf(key) ?? (parsed.ok ? resolvePath(parsed.value) : undefined);
		if (!path) return [];
		if (path.attribute) return [[path, value]];
		if (!isObject(value)) return [];
		return Object.entries(value).flatMap(([name, inner]): (readonly [Resolved, Json])[] => {
			const found = resolvePath({ urn: path.extension ?? '', name });
			return found && inner !== undefined ? [[found, inner]] : [];
		});
	});
}

/** An extension as a whole, by its URN. */
export function extensionOf(key: string): Resolved | undefined {
	const schema = userSchemas.find(({ id }) => id !== userUrn && id.toLowerCase() === key.trim().toLowerCase());
	return schema && { extension: schema.id, attribute: undefined, sub: undefined };
}

/** The user with its keys in order and its schemas told; refused without a user name. */
export function checkUser(user: JsonObject): ScimResult<JsonObject> {
	const userName = user['userName'];
	if (typeof userName !== 'string' || userName.trim() === '') {
		return wrong('invalidValue', 'userName is missing or empty.');
	}
	const extensions = userSchemas.filter(({ id }) => id !== userUrn && user[id] !== undefined);
	return given({
		schemas: [userUrn, ...extensions.map(({ id }) => id)],
		...inOrder(user, [...commonAttributes.filter(({ name }) => name === 'externalId'), ...userSchema.attributes]),
		...Object.fromEntries(
			extensions.map(({ id, attributes }) => [id, inOrder(user[id] as JsonObject, attributes)] as const)
		)
	});
}
