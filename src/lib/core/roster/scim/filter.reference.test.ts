import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { enterpriseUser } from '../../../../../tests/support/scim-examples';
import { compareOperators, type Filter, printFilter } from './filter';
import { checkFilter, matches } from './matches';
import { parseFilter, parsePatchPath } from './parse-filter';
import type { JsonObject } from './scim-result';

const user = enterpriseUser as unknown as JsonObject;

function fits(text: string): boolean {
	const parsed = parseFilter(text);
	if (!parsed.ok) throw new Error(parsed.error.detail);
	return matches(parsed.value, user);
}

describe('the examples of RFC 7644, section 3.4.2.2 (figure 2), against the user of RFC 7643, section 8.3', () => {
	test.each([
		['userName eq "bjensen"', false],
		['userName Eq "bjensen@example.com"', true],
		['name.familyName co "O\'Malley"', false],
		['userName sw "J"', false],
		['urn:ietf:params:scim:schemas:core:2.0:User:userName sw "J"', false],
		['urn:ietf:params:scim:schemas:core:2.0:User:userName sw "B"', true],
		['title pr', true],
		['meta.lastModified gt "2011-05-13T04:42:34Z"', false],
		['meta.lastModified ge "2011-05-13T04:42:34Z"', true],
		['meta.lastModified lt "2011-05-13T04:42:34Z"', false],
		['meta.lastModified le "2011-05-13T04:42:34Z"', true],
		// The same instant, written with another offset.
		['meta.lastModified eq "2011-05-13T06:42:34+02:00"', true],
		['title pr and userType eq "Employee"', true],
		['title pr or userType eq "Intern"', true],
		['schemas eq "urn:ietf:params:scim:schemas:extension:enterprise:2.0:User"', true],
		['userType eq "Employee" and (emails co "example.com" or emails.value co "example.org")', true],
		['userType ne "Employee" and not (emails co "example.com" or emails.value co "example.org")', false],
		['userType eq "Employee" and (emails.type eq "work")', true],
		['userType eq "Employee" and emails[type eq "work" and value co "@example.com"]', true],
		['emails[type eq "work" and value co "@example.com"] or ims[type eq "xmpp" and value co "@foo.com"]', true],
		// Both hold, but of two different addresses.
		['emails[type eq "home" and value co "@example.com"]', false],
		['urn:ietf:params:scim:schemas:extension:enterprise:2.0:User:department eq "tour operations"', true],
		['urn:ietf:params:scim:schemas:extension:enterprise:2.0:User.manager pr', false],
		['externalId eq "701984" and active eq true', true],
		['active eq "True"', true],
		['nonsense eq "x"', false],
		['nonsense eq null', true],
		['nickName ne null', true]
	])('%s', (text, expected) => {
		expect(fits(text)).toBe(expected);
	});
});

test('order of operations (RFC 7644, section 3.4.2.2): not, then and, then or', () => {
	expect(parseFilter('a pr or b pr and not (c pr)')).toEqual(parseFilter('a pr or (b pr and (not (c pr)))'));
	expect(parseFilter('a pr or b pr and c pr')).not.toEqual(parseFilter('(a pr or b pr) and c pr'));
});

test.each([
	'',
	'userName',
	'userName eq',
	'userName xx "a"',
	'userName eq "a',
	'(a pr',
	'a pr)',
	'a pr and',
	'a[b pr',
	'a[b[c pr]]',
	'not a pr',
	'a eq 01',
	`${'('.repeat(60)}a pr${')'.repeat(60)}`,
	"a eq 'b'"
])('%s is refused with invalidFilter and the place', (text) => {
	expect(parseFilter(text)).toMatchObject({ ok: false, error: { status: 400, scimType: 'invalidFilter' } });
});

test('order of true and false is refused (RFC 7644, section 3.4.2.2, table 3)', () => {
	const parsed = parseFilter('active gt true');
	expect(parsed.ok && checkFilter(parsed.value)).toMatchObject({ ok: false, error: { scimType: 'invalidFilter' } });
});

test.each([
	'members',
	'name.familyName',
	'addresses[type eq "work"]',
	'members[value eq "2819c223-7f76-453a-919d-413861904646"]',
	'members[value eq "2819c223-7f76-453a-919d-413861904646"].displayName'
])('the paths of RFC 7644, section 3.5.2 (figure 8): %s', (text) => {
	expect(parsePatchPath(text).ok).toBe(true);
});

const name = fc.constantFrom('userName', 'title', 'emails', 'x-y_2', '$ref', 'and', 'Not', 'pr');
const path = fc.record(
	{ urn: fc.constantFrom('urn:a:b', 'urn:ietf:params:scim:schemas:core:2.0:User'), name, sub: name },
	{ requiredKeys: ['name'] }
);
const value = fc.oneof(
	fc.string({ unit: 'grapheme' }),
	fc.double({ noNaN: true, noDefaultInfinity: true }).map((number) => (number === 0 ? 0 : number)),
	fc.boolean(),
	fc.constant(null)
);
const leaf: fc.Arbitrary<Filter> = fc.oneof(
	fc.record({ kind: fc.constant('present' as const), path }),
	fc.record({ kind: fc.constant('compare' as const), path, operator: fc.constantFrom(...compareOperators), value })
);
const joined = (part: fc.Arbitrary<Filter>): fc.Arbitrary<Filter> =>
	fc.oneof(
		{ maxDepth: 4 },
		leaf,
		fc.record({
			kind: fc.constantFrom('and' as const, 'or' as const),
			parts: fc.array(part, { minLength: 2, maxLength: 4 })
		}),
		fc.record({ kind: fc.constant('not' as const), part })
	);
const { simple } = fc.letrec<{ simple: Filter }>((tie) => ({ simple: joined(tie('simple')) }));
const within = fc.record({ kind: fc.constant('within' as const), path: fc.record({ name }), filter: simple });
const { filter } = fc.letrec<{ filter: Filter }>((tie) => ({ filter: fc.oneof(within, joined(tie('filter'))) }));

test('what is printed is read as the same filter', () => {
	fc.assert(
		fc.property(filter, (one) => {
			expect(parseFilter(printFilter(one))).toEqual({ ok: true, value: one });
		}),
		{ numRuns: 300 }
	);
});

test('no text makes the parser throw, and what is read can be evaluated', () => {
	const pieces = fc
		.array(
			fc.constantFrom('a', ' ', '(', ')', '[', ']', '.', '"', '\\', 'eq', 'and', 'not', 'pr', '1', 'urn:x:y:', 'emails')
		)
		.map((parts) => parts.join(''));
	fc.assert(
		fc.property(fc.oneof(fc.string({ unit: 'binary' }), pieces), (text) => {
			const parsed = parseFilter(text);
			if (parsed.ok) expect(typeof matches(parsed.value, user)).toBe('boolean');
			parsePatchPath(text);
		}),
		{ numRuns: 1000 }
	);
});
