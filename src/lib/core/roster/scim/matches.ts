import type { Attribute } from './attribute';
import type { CompareOperator, Filter } from './filter';
import { findAttribute, resolvePath, valueAt, valuesAt } from './resolve';
import { type Json, type JsonObject, type ScimResult, given, isObject, isUnassigned, wrong } from './scim-result';

type Compare = Extract<Filter, { kind: 'compare' }>;

/**
 * Whether a user fits a filter. An attribute that no schema has counts as one without a value; of several values one must fit;
 * text is compared without capitals unless its schema says otherwise, instants as instants. A missing value is unequal to
 * every value.
 * @source RFC 7644, section 3.4.2.2, table 3
 */
export function matches(filter: Filter, user: JsonObject): boolean {
	switch (filter.kind) {
		case 'and':
			return filter.parts.every((part) => matches(part, user));
		case 'or':
			return filter.parts.some((part) => matches(part, user));
		case 'not':
			return !matches(filter.part, user);
		case 'within': {
			const path = resolvePath(filter.path);
			const found = path && valueAt(user, path);
			const values = Array.isArray(found) ? (found as readonly Json[]) : found === undefined ? [] : [found];
			return values.some((value) => matchesValue(filter.filter, value, path?.attribute));
		}
		case 'present': {
			const path = resolvePath(filter.path);
			if (!path) return false;
			return path.sub ? valuesAt(user, path).some((one) => !isUnassigned(one)) : !isUnassigned(valueAt(user, path));
		}
		default: {
			const path = resolvePath(filter.path);
			const type = path?.sub ?? valueType(path?.attribute);
			return fitsAny(filter, path ? valuesAt(user, path) : [], type);
		}
	}
}

/** Whether one value of an attribute fits the filter in brackets after it. Simple values are called `value` there. */
export function matchesValue(filter: Filter, value: Json, attribute: Attribute | undefined): boolean {
	switch (filter.kind) {
		case 'and':
			return filter.parts.every((part) => matchesValue(part, value, attribute));
		case 'or':
			return filter.parts.some((part) => matchesValue(part, value, attribute));
		case 'not':
			return !matchesValue(filter.part, value, attribute);
		case 'within':
			return false;
		default: {
			const sub = findAttribute(attribute?.subAttributes ?? [], filter.path.name);
			const isSimple = !isObject(value) && filter.path.name.toLowerCase() === 'value';
			const found = isSimple ? value : isObject(value) && sub ? value[sub.name] : undefined;
			if (filter.kind === 'present') return !isUnassigned(found);
			return fitsAny(filter, found === undefined ? [] : [found], isSimple ? attribute : sub);
		}
	}
}

/**
 * Refuses what cannot be compared: order and parts of true and false. Told before anything is searched.
 * @source RFC 7644, section 3.4.2.2, table 3: gt, ge, lt, le fail with 400 and invalidFilter on Boolean and Binary
 */
export function checkFilter(filter: Filter, within?: Attribute): ScimResult<Filter> {
	if (filter.kind === 'present') return given(filter);
	if (filter.kind === 'compare') {
		const path = within ? undefined : resolvePath(filter.path);
		const type = within
			? findAttribute(within.subAttributes ?? [], filter.path.name)
			: (path?.sub ?? valueType(path?.attribute));
		const isOrder = !['eq', 'ne'].includes(filter.operator);
		if (!isOrder) return given(filter);
		if (type?.type === 'boolean' || typeof filter.value === 'boolean' || filter.value === null) {
			return wrong('invalidFilter', `${filter.path.name} cannot be compared by ${filter.operator}.`);
		}
		return given(filter);
	}
	const attribute = filter.kind === 'within' ? resolvePath(filter.path)?.attribute : within;
	const parts = filter.kind === 'within' ? [filter.filter] : filter.kind === 'not' ? [filter.part] : filter.parts;
	for (const part of parts) {
		const checked = checkFilter(part, attribute);
		if (!checked.ok) return checked;
	}
	return given(filter);
}

function valueType(attribute: Attribute | undefined): Attribute | undefined {
	if (attribute?.type !== 'complex') return attribute;
	return findAttribute(attribute.subAttributes ?? [], 'value');
}

function fitsAny({ operator, value }: Compare, found: readonly Json[], attribute: Attribute | undefined): boolean {
	const values = found.filter((one) => !isUnassigned(one));
	if (value === null) return operator === 'eq' ? values.length === 0 : operator === 'ne' && values.length > 0;
	if (values.length === 0) return operator === 'ne';
	return values.some((one) => fits(one, operator, value, attribute));
}

function fits(
	found: Json,
	operator: CompareOperator,
	wanted: string | number | boolean,
	attribute: Attribute | undefined
): boolean {
	const [a, b] = comparable(found, wanted, attribute);
	if (operator === 'eq') return a === b;
	if (operator === 'ne') return a !== b;
	if (typeof a === 'number' && typeof b === 'number') return ordered(a, operator, b);
	if (typeof a !== 'string' || typeof b !== 'string') return false;
	if (operator === 'co') return a.includes(b);
	if (operator === 'sw') return a.startsWith(b);
	if (operator === 'ew') return a.endsWith(b);
	return ordered(a, operator, b);
}

function ordered<T extends string | number>(a: T, operator: CompareOperator, b: T): boolean {
	switch (operator) {
		case 'gt':
			return a > b;
		case 'ge':
			return a >= b;
		case 'lt':
			return a < b;
		case 'le':
			return a <= b;
		default:
			return false;
	}
}

/** Both sides in the form in which they are compared. */
function comparable(found: Json, wanted: Json, attribute: Attribute | undefined): readonly [Json, Json] {
	if (attribute?.type === 'dateTime' && typeof found === 'string' && typeof wanted === 'string') {
		const [a, b] = [Date.parse(found), Date.parse(wanted)];
		if (!Number.isNaN(a) && !Number.isNaN(b)) return [a, b];
	}
	// Some identity providers put true and false in quotes.
	if (typeof found === 'boolean' && typeof wanted === 'string') return [String(found), wanted.toLowerCase()];
	if (attribute?.caseExact === true || typeof found !== 'string' || typeof wanted !== 'string') return [found, wanted];
	return [found.toLowerCase(), wanted.toLowerCase()];
}
