import type { Attribute } from './attribute';
import { findAttribute } from './resolve';
import { type Json, type JsonObject, type ScimResult, given, isObject, isUnassigned, wrong } from './scim-result';

/**
 * A value as its schema wants it: names of sub-attributes in its own capitals, `"True"` as true, a lone text where an object with
 * a `value` is meant, a lone value where there may be several. Undefined where nothing is assigned. Sub-attributes that the
 * schema does not have are passed over. Refuses another type with `invalidValue`.
 */
export function readValue(attribute: Attribute, value: Json, place = attribute.name): ScimResult<Json | undefined> {
	if (isUnassigned(value)) return given(undefined);
	if (!attribute.multiValued) return readOne(attribute, value, place);
	const list = Array.isArray(value) ? (value as readonly Json[]) : [value];
	const values: Json[] = [];
	for (const [index, one] of list.entries()) {
		const read = readOne(attribute, one, `${place}[${index}]`);
		if (!read.ok) return read;
		if (read.value !== undefined) values.push(read.value);
	}
	const primaries = values.filter((one) => isObject(one) && one['primary'] === true);
	if (primaries.length > 1) return wrong('invalidValue', `${place} has ${primaries.length} primary values, not one.`);
	return given(values.length === 0 ? undefined : values);
}

function readOne(attribute: Attribute, value: Json, place: string): ScimResult<Json | undefined> {
	if (value === null) return given(undefined);
	if (attribute.type === 'complex') return readComplex(attribute, value, place);
	if (attribute.type === 'boolean') {
		if (typeof value === 'boolean') return given(value);
		const word = typeof value === 'string' ? value.toLowerCase() : '';
		return word === 'true' || word === 'false'
			? given(word === 'true')
			: wrong('invalidValue', `${place} is ${JSON.stringify(value)}, expected is true or false.`);
	}
	return typeof value === 'string'
		? given(value)
		: wrong('invalidValue', `${place} is ${JSON.stringify(value).slice(0, 80)}, expected is text.`);
}

function readComplex(attribute: Attribute, value: Json, place: string): ScimResult<Json | undefined> {
	const subAttributes = attribute.subAttributes ?? [];
	// A manager is often sent as a lone id, an e-mail as a lone address.
	const isLone = typeof value === 'string' && findAttribute(subAttributes, 'value') !== undefined;
	const object = isLone ? { value } : value;
	if (!isObject(object)) {
		return wrong('invalidValue', `${place} is ${JSON.stringify(value).slice(0, 80)}, expected is an object.`);
	}
	const found: Record<string, Json> = {};
	for (const [key, sent] of Object.entries(object)) {
		const sub = findAttribute(subAttributes, key);
		if (!sub || sent === undefined) continue;
		const read = readValue(sub, sent, `${place}.${sub.name}`);
		if (!read.ok) return read;
		if (read.value !== undefined) found[sub.name] = read.value;
	}
	return given(Object.keys(found).length === 0 ? undefined : inOrder(found, subAttributes));
}

/** Keys in the order of the schema, so that the same content reads the same. */
export function inOrder(object: JsonObject, attributes: readonly Attribute[]): JsonObject {
	return Object.fromEntries(
		attributes.flatMap(({ name }) => (object[name] === undefined ? [] : [[name, object[name]] as const]))
	);
}
