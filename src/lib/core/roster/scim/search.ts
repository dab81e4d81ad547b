import { byCodeUnits } from '../../kernel/compare';
import { checkFilter, matches } from './matches';
import { parseAttributePath, parseFilter } from './parse-filter';
import { type Resolved, resolvePath, valueAt, valuesAt } from './resolve';
import { type Json, type JsonObject, type ScimResult, given, isObject, isUnassigned, wrong } from './scim-result';

/** The most users in one page, and how many where the client does not say. */
export const mostPerPage = 500;
export const usualPerPage = 100;

export interface Query {
	readonly filter?: string | undefined;
	readonly sortBy?: string | undefined;
	readonly sortOrder?: string | undefined;
	/** From 1; smaller is 1. */
	readonly startIndex?: number | undefined;
	/** Smaller than 0 is 0: only the total is asked for. */
	readonly count?: number | undefined;
}

export interface Found {
	readonly total: number;
	readonly startIndex: number;
	readonly page: readonly JsonObject[];
}

/**
 * The users that fit a filter, sorted and paged; without `sortBy` in the order in which they came, so that pages do not overlap.
 * @source RFC 7644, sections 3.4.2.2 to 3.4.2.4
 */
export function searchUsers(users: readonly JsonObject[], query: Query): ScimResult<Found> {
	let found = users;
	if (query.filter !== undefined && query.filter.trim() !== '') {
		const parsed = parseFilter(query.filter);
		const filter = parsed.ok ? checkFilter(parsed.value) : parsed;
		if (!filter.ok) return filter;
		found = users.filter((user) => matches(filter.value, user));
	}
	const sorted = sortedUsers(found, query);
	if (!sorted.ok) return sorted;
	const startIndex = Math.max(1, query.startIndex ?? 1);
	const count = Math.min(Math.max(0, query.count ?? usualPerPage), mostPerPage);
	return given({
		total: found.length,
		startIndex,
		page: sorted.value.slice(startIndex - 1, startIndex - 1 + count)
	});
}

function sortedUsers(users: readonly JsonObject[], { sortBy, sortOrder }: Query): ScimResult<readonly JsonObject[]> {
	const order = (sortOrder ?? 'ascending').toLowerCase();
	if (order !== 'ascending' && order !== 'descending') {
		return wrong('invalidValue', 'sortOrder must be ascending or descending.');
	}
	if (sortBy === undefined || sortBy === '') return given(users);
	const parsed = parseAttributePath(sortBy);
	if (!parsed.ok) return parsed;
	const path = resolvePath(parsed.value);
	if (!path) return wrong('invalidPath', `No schema has the attribute ${sortBy}.`);
	const keyed = users.map((user) => ({ user, key: sortKey(user, path) }));
	const sign = order === 'ascending' ? 1 : -1;
	return given(keyed.toSorted((a, b) => sign * compareKeys(a.key, b.key)).map(({ user }) => user));
}

/** Of several values the primary one, else the first. @source RFC 7644, section 3.4.2.3 */
function sortKey(user: JsonObject, path: Resolved): string | undefined {
	const value = valueAt(user, path);
	const list = Array.isArray(value) ? (value as readonly Json[]) : [];
	const primary = list.find((one) => isObject(one) && one['primary'] === true);
	const key = path.attribute;
	const from = primary && key && path.extension === undefined ? { [key.name]: [primary] } : user;
	const [first] = valuesAt(from, path).filter((one) => !isUnassigned(one));
	if (first === undefined || typeof first === 'object') return undefined;
	return (path.sub ?? key)?.caseExact === true ? String(first) : String(first).toLowerCase();
}

/** Without a value comes last in ascending, first in descending order. */
function compareKeys(a: string | undefined, b: string | undefined): number {
	if (a === undefined || b === undefined) return a === b ? 0 : a === undefined ? 1 : -1;
	return byCodeUnits(a, b);
}
