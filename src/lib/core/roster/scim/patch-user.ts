import { isSameJson } from '../../document/canonical';
import { nearestName } from '../../kernel/nearest';
import type { PatchPath } from './filter';
import { parseAttributePath, parsePatchPath } from './parse-filter';
import { type Operation, putOne, putWithin } from './put-value';
import { checkUser, extensionOf } from './read-user';
import { type Resolved, resolvePath } from './resolve';
import { type Json, type JsonObject, type ScimResult, given, isObject, wrong } from './scim-result';
import { commonAttributes, passedOver, userSchemas } from './user-schemas';

const patchUrn = 'urn:ietf:params:scim:api:messages:2.0:PatchOp';

/** The most operations in one request. */
const mostOperations = 1_000;

/**
 * A user after the operations of a request, in their order; the same object where they change nothing. All of them or none.
 * `op` and the names of attributes in any capitals, `"True"` for true, extensions with the URN before each attribute: all as
 * identity providers send them.
 * @source RFC 7644, section 3.5.2
 */
export function patchUser(user: JsonObject, body: Json): ScimResult<JsonObject> {
	if (!isObject(body)) return wrong('invalidSyntax', 'The body is no JSON object.');
	const schemas = fieldOf(body, 'schemas');
	const isPatch =
		Array.isArray(schemas) &&
		(schemas as readonly Json[]).some((urn) => textIn(urn).toLowerCase() === patchUrn.toLowerCase());
	if (!isPatch) return wrong('invalidSyntax', `schemas must name ${patchUrn}.`);
	const operations = fieldOf(body, 'operations');
	if (!Array.isArray(operations) || operations.length === 0) {
		return wrong('invalidSyntax', 'Operations must be a list with at least one operation.');
	}
	if (operations.length > mostOperations) {
		return wrong('invalidSyntax', `Operations holds ${operations.length}, at most ${mostOperations} are taken.`);
	}
	let changed = user;
	for (const [index, operation] of (operations as readonly Json[]).entries()) {
		const applied = applyOne(changed, operation);
		if (!applied.ok) {
			return { ok: false, error: { ...applied.error, detail: `Operation ${index + 1}: ${applied.error.detail}` } };
		}
		changed = applied.value;
	}
	const checked = checkUser(changed);
	return checked.ok && isSameJson(checked.value, user) ? given(user) : checked;
}

function applyOne(user: JsonObject, operation: Json): ScimResult<JsonObject> {
	const op = isObject(operation) ? textIn(fieldOf(operation, 'op')).toLowerCase() : '';
	if (!isObject(operation) || (op !== 'add' && op !== 'replace' && op !== 'remove')) {
		return wrong('invalidSyntax', `op is ${JSON.stringify(op)}, expected is add, replace or remove.`);
	}
	const path = fieldOf(operation, 'path');
	const value = fieldOf(operation, 'value');
	if (op !== 'remove' && value === undefined) return wrong('invalidValue', 'value is missing.');
	if (path === undefined || path === null || path === '') {
		if (op === 'remove') return wrong('noTarget', 'To remove something needs a path.');
		return isObject(value)
			? putAll(user, op, value)
			: wrong('invalidValue', 'Without a path, value must be an object.');
	}
	if (typeof path !== 'string') return wrong('invalidPath', 'path must be text.');
	const extension = extensionOf(path);
	if (extension) return putAt(user, op, { resolved: extension, path: undefined }, value);
	const parsed = parsePatchPath(path);
	if (!parsed.ok) return parsed;
	const resolved = resolvePath(parsed.value.path);
	if (resolved) return putAt(user, op, { resolved, path: parsed.value }, value);
	const { urn, name } = parsed.value.path;
	if (urn === undefined && passedOver.has(name.toLowerCase())) return given(user);
	return wrong('invalidPath', `No schema has the attribute ${path}${hint(name)}.`);
}

/** An operation without a path: every attribute that the object names. What the server gives out is passed over. */
function putAll(user: JsonObject, op: 'add' | 'replace', values: JsonObject): ScimResult<JsonObject> {
	let changed = user;
	for (const [key, value] of Object.entries(values)) {
		if (value === undefined) continue;
		const parsed = parseAttributePath(key);
		const resolved = extensionOf(key) ?? (parsed.ok ? resolvePath(parsed.value) : undefined);
		if (!resolved || resolved.attribute?.mutability === 'readOnly') continue;
		const path = parsed.ok ? { path: parsed.value, filter: undefined, sub: undefined } : undefined;
		const put = putAt(changed, op, { resolved, path }, value);
		if (!put.ok) return put;
		changed = put.value;
	}
	return given(changed);
}

interface Target {
	readonly resolved: Resolved;
	readonly path: PatchPath | undefined;
}

function putAt(user: JsonObject, op: Operation, target: Target, value: Json | undefined): ScimResult<JsonObject> {
	const { extension, attribute } = target.resolved;
	if (!attribute) return putExtension(user, op, String(extension), value);
	if (attribute.mutability === 'readOnly' || target.resolved.sub?.mutability === 'readOnly') {
		return wrong('mutability', `${attribute.name} is given out by the server and cannot be changed.`);
	}
	if (op === 'remove' && attribute.required && target.resolved.sub === undefined) {
		return wrong('mutability', `${attribute.name} is required and cannot be removed.`);
	}
	const holder = extension === undefined ? user : ((user[extension] ?? {}) as JsonObject);
	const before = holder[attribute.name];
	const filter = target.path?.filter;
	const put =
		filter === undefined
			? putOne(attribute, target.resolved.sub, op, before, value)
			: putWithin(attribute, { filter, sub: target.path?.sub }, op, before, value);
	if (!put.ok) return put;
	const changed = without(holder, attribute.name, put.value);
	if (extension === undefined) return given(changed);
	return given(without(user, extension, Object.keys(changed).length === 0 ? undefined : changed));
}

function putExtension(user: JsonObject, op: Operation, urn: string, value: Json | undefined): ScimResult<JsonObject> {
	if (op === 'remove') return given(without(user, urn, undefined));
	if (!isObject(value)) return wrong('invalidValue', `The value of ${urn} must be an object.`);
	return putAll(user, op, Object.fromEntries(Object.entries(value).map(([key, one]) => [`${urn}:${key}`, one])));
}

/** The object with another value under a key, or without the key. */
function without(object: JsonObject, key: string, value: Json | undefined): JsonObject {
	const { [key]: _, ...rest } = object;
	return value === undefined ? rest : { ...rest, [key]: value };
}

function fieldOf(object: JsonObject, name: string): Json | undefined {
	return Object.entries(object).find(([key]) => key.toLowerCase() === name)?.[1];
}

function textIn(value: Json | undefined): string {
	return typeof value === 'string' ? value : '';
}

function hint(name: string): string {
	const known = [...commonAttributes, ...userSchemas.flatMap(({ attributes }) => attributes)].map((one) => one.name);
	const nearest = nearestName(name, known);
	return nearest === undefined ? '' : `; did you mean ${nearest}?`;
}
