import { type Json, type JsonObject, type ScimResult, given, isObject, wrong } from './scim-result';
import type { Query } from './search';

/** A search with what is to be shown of each user. */
export interface Search extends Query {
	readonly attributes: readonly string[];
	readonly excludedAttributes: readonly string[];
}

const listUrn = 'urn:ietf:params:scim:api:messages:2.0:ListResponse';
const searchUrn = 'urn:ietf:params:scim:api:messages:2.0:SearchRequest';

/** A page of a list. @source RFC 7644, section 3.4.2 */
export function listResponse(resources: readonly JsonObject[], total = resources.length, startIndex = 1): JsonObject {
	return {
		schemas: [listUrn],
		totalResults: total,
		itemsPerPage: resources.length,
		startIndex,
		// With nothing found the list may be left out; clients that expect it are more than those that do not.
		Resources: resources
	};
}

/** Reads a search from an address. @source RFC 7644, section 3.4.2 */
export function searchOfQuery(query: URLSearchParams): ScimResult<Search> {
	return readSearch(Object.fromEntries([...query].map(([key, text]) => [key, text])));
}

/** Reads a search that was posted. @source RFC 7644, section 3.4.3 */
export function searchOfBody(body: Json): ScimResult<Search> {
	const schemas = isObject(body) ? body['schemas'] : undefined;
	if (!isObject(body) || !Array.isArray(schemas) || !(schemas as readonly Json[]).includes(searchUrn)) {
		return wrong('invalidSyntax', `The body must be a JSON object whose schemas name ${searchUrn}.`);
	}
	return readSearch(body);
}

function readSearch(sent: JsonObject): ScimResult<Search> {
	const from = new Map(Object.entries(sent).map(([key, value]) => [key.toLowerCase(), value]));
	const numbers = ['startIndex', 'count'].map((name) => numberOf(from.get(name.toLowerCase())));
	const [startIndex, count] = numbers;
	if (numbers.includes(null)) return wrong('invalidValue', 'startIndex and count must be whole numbers.');
	const text = (name: string): string | undefined => {
		const value = from.get(name.toLowerCase());
		return typeof value === 'string' ? value : undefined;
	};
	return given({
		filter: text('filter'),
		sortBy: text('sortBy'),
		sortOrder: text('sortOrder'),
		startIndex: startIndex ?? undefined,
		count: count ?? undefined,
		attributes: namesIn(from.get('attributes')),
		excludedAttributes: namesIn(from.get('excludedattributes'))
	});
}

function numberOf(value: Json | undefined): number | null | undefined {
	if (value === undefined || value === null || value === '') return undefined;
	const number = typeof value === 'string' && /^-?\d{1,9}$/.test(value.trim()) ? Number(value) : value;
	return typeof number === 'number' && Number.isInteger(number) ? number : null;
}

/** Names in a list, or separated by commas in one text. */
function namesIn(value: Json | undefined): readonly string[] {
	const list = typeof value === 'string' ? value.split(',') : Array.isArray(value) ? (value as readonly Json[]) : [];
	return list.flatMap((one) => (typeof one === 'string' && one.trim() !== '' ? [one.trim()] : []));
}
