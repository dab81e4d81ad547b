import { isSameJson } from '../../document/canonical';
import type { Attribute } from './attribute';
import type { Filter } from './filter';
import { matchesValue } from './matches';
import { inOrder, readValue } from './read-value';
import { findAttribute } from './resolve';
import { type Json, type JsonObject, type ScimResult, given, isObject, isUnassigned, wrong } from './scim-result';

export type Operation = 'add' | 'replace' | 'remove';

/**
 * The value of an attribute after an operation on it or on its sub-attribute; undefined where nothing is left. Adding to
 * several values leaves out what is there already; of an object only the parts that are given change.
 * @source RFC 7644, sections 3.5.2.1 to 3.5.2.3
 */
export function putOne(
	attribute: Attribute,
	sub: Attribute | undefined,
	op: Operation,
	before: Json | undefined,
	value: Json | undefined
): ScimResult<Json | undefined> {
	if (sub && attribute.multiValued) {
		// A sub-attribute of several values without a filter: of each of them.
		const values = listOf(before);
		const targets = values.length === 0 && op !== 'remove' ? [{}] : values;
		return putEach(attribute, targets, targets, { sub, op, value });
	}
	if (sub) return putSub(attribute, sub, op, before, value);
	if (op === 'remove') return given(undefined);
	if (isUnassigned(value)) return given(op === 'add' ? before : undefined);
	if (attribute.type === 'complex' && !attribute.multiValued && isObject(value)) {
		return merged(attribute, isObject(before) ? before : {}, value);
	}
	const read = readValue(attribute, value ?? null);
	if (!read.ok || !attribute.multiValued || op === 'replace') return read;
	const fresh = listOf(read.value).filter((one) => !listOf(before).some((old) => isSameJson(old, one)));
	return given([...yieldingPrimary(listOf(before), fresh), ...fresh]);
}

/** Where within several values: those that fit a filter, and of these a sub-attribute or all of it. */
export interface Within {
	readonly filter: Filter;
	readonly sub: string | undefined;
}

/**
 * The values of an attribute after an operation on those that fit a filter. Refuses with `noTarget` where none fits, except that
 * adding makes the value that a filter of equalities describes, as identity providers expect.
 * @source RFC 7644, section 3.5.2.3 (noTarget)
 */
export function putWithin(
	attribute: Attribute,
	{ filter, sub: subName }: Within,
	op: Operation,
	before: Json | undefined,
	value: Json | undefined
): ScimResult<Json | undefined> {
	if (!attribute.multiValued) return wrong('invalidPath', `${attribute.name} has one value: nothing to choose from.`);
	const sub = subName === undefined ? undefined : findAttribute(attribute.subAttributes ?? [], subName);
	if (subName !== undefined && !sub) return wrong('invalidPath', `${attribute.name} has no part ${subName}.`);
	const values = listOf(before);
	const chosen = values.filter((one) => matchesValue(filter, one, attribute));
	if (chosen.length > 0) return putEach(attribute, values, chosen, { sub, op, value });
	const described = op === 'add' ? describedBy(filter, attribute) : undefined;
	if (!described) return wrong('noTarget', `No value of ${attribute.name} fits the filter.`);
	return putEach(attribute, [...values, described], [described], { sub, op, value });
}

interface Put {
	readonly sub: Attribute | undefined;
	readonly op: Operation;
	readonly value: Json | undefined;
}

function putEach(
	attribute: Attribute,
	values: readonly Json[],
	chosen: readonly Json[],
	{ sub, op, value }: Put
): ScimResult<Json | undefined> {
	const one: Attribute = { ...attribute, multiValued: false };
	const result: Json[] = [];
	const changed: Json[] = [];
	for (const old of values) {
		if (!chosen.includes(old)) {
			result.push(old);
			continue;
		}
		const put = sub
			? putSub(one, sub, op, old, value)
			: op === 'remove'
				? given(undefined)
				: op === 'add' && isObject(value)
					? merged(one, isObject(old) ? old : {}, value)
					: readValue(one, value ?? null);
		if (!put.ok) return put;
		if (put.value === undefined) continue;
		changed.push(put.value);
		result.push(put.value);
	}
	const settled = result.map((kept) => (changed.includes(kept) ? kept : yieldingPrimary([kept], changed)[0])) as Json[];
	return readValue(attribute, settled);
}

function putSub(
	attribute: Attribute,
	sub: Attribute,
	op: Operation,
	before: Json | undefined,
	value: Json | undefined
): ScimResult<Json | undefined> {
	const object = isObject(before) ? before : typeof before === 'string' ? { value: before } : {};
	return merged(attribute, object, { [sub.name]: op === 'remove' ? null : (value ?? null) });
}

/** An object with the given parts changed; null takes a part away. Undefined where nothing is left. */
function merged(attribute: Attribute, before: JsonObject, parts: JsonObject): ScimResult<Json | undefined> {
	const after: Record<string, Json | undefined> = { ...before };
	for (const [key, sent] of Object.entries(parts)) {
		const sub = findAttribute(attribute.subAttributes ?? [], key);
		if (!sub || sent === undefined) continue;
		const read = readValue(sub, sent, `${attribute.name}.${sub.name}`);
		if (!read.ok) return read;
		after[sub.name] = read.value;
	}
	const kept = inOrder(after, attribute.subAttributes ?? []);
	return given(Object.keys(kept).length === 0 ? undefined : kept);
}

/** Values that stop being the primary one where a new one is. @source RFC 7644, section 3.5.2 */
function yieldingPrimary(values: readonly Json[], fresh: readonly Json[]): readonly Json[] {
	if (!fresh.some((one) => isObject(one) && one['primary'] === true)) return values;
	return values.map((one) => (isObject(one) && one['primary'] === true ? { ...one, primary: false } : one));
}

/** The value that a filter of equalities joined by `and` describes; undefined for any other filter. */
function describedBy(filter: Filter, attribute: Attribute): JsonObject | undefined {
	if (filter.kind === 'and') {
		const parts = filter.parts.map((part) => describedBy(part, attribute));
		return parts.every((part) => part !== undefined) ? (Object.assign({}, ...parts) as JsonObject) : undefined;
	}
	if (filter.kind !== 'compare' || filter.operator !== 'eq' || filter.value === null) return undefined;
	const sub = findAttribute(attribute.subAttributes ?? [], filter.path.name);
	const read = sub ? readValue(sub, filter.value) : undefined;
	return sub && read?.ok && read.value !== undefined ? { [sub.name]: read.value } : undefined;
}

function listOf(value: Json | undefined): readonly Json[] {
	return Array.isArray(value) ? (value as readonly Json[]) : value === undefined || value === null ? [] : [value];
}
