import { parseAttributePath } from './parse-filter';
import { extensionOf } from './read-user';
import { type Resolved, resolvePath } from './resolve';
import { type Json, type JsonObject, type ScimResult, given, isObject, wrong } from './scim-result';

/** Which attributes are asked for; both lists undefined: all. */
export interface Wanted {
	readonly only: readonly Resolved[] | undefined;
	readonly not: readonly Resolved[];
}

/**
 * Reads `attributes` and `excludedAttributes`. Names that no schema has are passed over; both at once are refused.
 * @source RFC 7644, sections 3.4.2.5 and 3.9
 */
export function readWanted(attributes: readonly string[], excluded: readonly string[]): ScimResult<Wanted> {
	if (attributes.length > 0 && excluded.length > 0) {
		return wrong('invalidValue', 'attributes and excludedAttributes cannot both be given.');
	}
	const resolved = (names: readonly string[]): Resolved[] =>
		names.flatMap((name) => {
			const parsed = parseAttributePath(name);
			const found = extensionOf(name) ?? (parsed.ok ? resolvePath(parsed.value) : undefined);
			return found ? [found] : [];
		});
	return given({ only: attributes.length > 0 ? resolved(attributes) : undefined, not: resolved(excluded) });
}

/** A resource with the attributes that are asked for; `id` and `schemas` are always among them. */
export function project(resource: JsonObject, { only, not }: Wanted): JsonObject {
	if (only) {
		const picked: Record<string, Json | undefined> = { schemas: resource['schemas'], id: resource['id'] };
		for (const path of only) pick(picked, resource, path);
		return Object.fromEntries(
			Object.entries(resource).flatMap(([key]) => (picked[key] === undefined ? [] : [[key, picked[key]]]))
		);
	}
	return not.reduce(leaveOut, resource);
}

function pick(picked: Record<string, Json | undefined>, resource: JsonObject, path: Resolved): void {
	const { extension, attribute, sub } = path;
	const holder = extension === undefined ? resource : resource[extension];
	if (!isObject(holder)) return;
	if (!attribute) {
		picked[String(extension)] = holder;
		return;
	}
	const value = holder[attribute.name];
	if (value === undefined) return;
	const earlier = extension === undefined ? undefined : picked[extension];
	const target: Record<string, Json | undefined> =
		extension === undefined ? picked : { ...(isObject(earlier) ? earlier : {}) };
	target[attribute.name] = sub ? withPart(target[attribute.name], value, sub.name) : value;
	if (extension !== undefined) picked[extension] = target;
}

/** What was picked of a value before, with one part more. */
function withPart(before: Json | undefined, value: Json, part: string): Json {
	if (Array.isArray(value)) {
		const earlier = Array.isArray(before) ? (before as readonly Json[]) : [];
		return (value as readonly Json[]).map((one, index) => withPart(earlier[index], one, part));
	}
	if (!isObject(value)) return value;
	return { ...(isObject(before) ? before : {}), ...(value[part] === undefined ? {} : { [part]: value[part] }) };
}

function leaveOut(resource: JsonObject, { extension, attribute, sub }: Resolved): JsonObject {
	if (attribute?.returned === 'always') return resource;
	if (extension !== undefined) {
		const holder = resource[extension];
		if (!isObject(holder)) return resource;
		return { ...resource, [extension]: attribute ? dropped(holder, attribute.name, sub?.name) : undefined };
	}
	return attribute ? dropped(resource, attribute.name, sub?.name) : resource;
}

function dropped(holder: JsonObject, name: string, part: string | undefined): JsonObject {
	const value = holder[name];
	const drop = (one: Json): Json => (isObject(one) && part !== undefined ? { ...one, [part]: undefined } : one);
	if (part === undefined || value === undefined) return { ...holder, [name]: undefined };
	return { ...holder, [name]: Array.isArray(value) ? (value as readonly Json[]).map(drop) : drop(value) };
}
