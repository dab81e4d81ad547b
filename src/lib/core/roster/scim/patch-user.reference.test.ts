import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { enterpriseUser } from '../../../../../tests/support/scim-examples';
import { patchUser } from './patch-user';
import { readUser } from './read-user';
import type { Json, JsonObject } from './scim-result';
import { enterpriseUrn } from './user-schemas';

const read = readUser(enterpriseUser);
if (!read.ok) throw new Error(read.error.detail);
const user = read.value;

function patch(...operations: readonly JsonObject[]): ReturnType<typeof patchUser> {
	return patchUser(user, { schemas: ['urn:ietf:params:scim:api:messages:2.0:PatchOp'], Operations: operations });
}

function patched(...operations: readonly JsonObject[]): JsonObject {
	const result = patch(...operations);
	if (!result.ok) throw new Error(result.error.detail);
	return result.value;
}

describe('the user of RFC 7643, section 8.3', () => {
	test('is read with what is kept, and without what is given out here or must not lie here', () => {
		const { id: _, meta: __, password: ___, ...kept } = enterpriseUser;
		expect(user).toEqual(kept);
	});

	test('the minimal user of section 8.1 needs a user name only', () => {
		const minimal = { schemas: ['urn:ietf:params:scim:schemas:core:2.0:User'], userName: 'bjensen@example.com' };
		expect(readUser({ ...minimal, id: '2819c223-7f76-453a-919d-413861904646' })).toEqual({ ok: true, value: minimal });
		expect(readUser({ schemas: minimal.schemas })).toMatchObject({ error: { scimType: 'invalidValue' } });
		expect(readUser({ userName: 'x' })).toMatchObject({ error: { scimType: 'invalidSyntax' } });
	});
});

describe('RFC 7644, section 3.5.2.1, add', () => {
	test('the example without a path adds an address and sets a nickname', () => {
		const after = patched({
			op: 'add',
			value: { emails: [{ value: 'babs@jensen.org', type: 'home' }], nickName: 'Babs' }
		});
		// The address is there already: nothing changes, and the same object says so.
		expect(after).toBe(user);
		const added = patched({
			op: 'add',
			value: { emails: [{ value: 'barbara@example.org', type: 'other' }], nickname: 'Barb' }
		});
		expect(added['nickName']).toBe('Barb');
		expect(added['emails']).toEqual([...enterpriseUser.emails, { value: 'barbara@example.org', type: 'other' }]);
	});

	test('a new primary value makes the one before secondary (section 3.5.2)', () => {
		const after = patched({ op: 'add', path: 'emails', value: [{ value: 'b@example.org', primary: true }] });
		expect((after['emails'] as JsonObject[]).map((one) => one['primary'])).toEqual([false, undefined, true]);
	});

	test('with a filter that fits nothing makes the value that the filter describes', () => {
		const after = patched({ op: 'Add', path: 'phoneNumbers[type eq "fax"].value', value: '555-555-0000' });
		expect((after['phoneNumbers'] as JsonObject[]).at(-1)).toEqual({ value: '555-555-0000', type: 'fax' });
	});
});

describe('RFC 7644, section 3.5.2.2, remove', () => {
	test('a value chosen by a filter; the attribute goes with its last value', () => {
		const one = patched({ op: 'remove', path: 'emails[type eq "work" and value ew "example.com"]' });
		expect(one['emails']).toEqual([enterpriseUser.emails[1]]);
		expect(patched({ op: 'remove', path: 'emails[value pr]' })).not.toHaveProperty('emails');
		expect(patched({ op: 'remove', path: 'emails' })).not.toHaveProperty('emails');
	});

	test('a part of a complex attribute, and an extension as a whole', () => {
		expect(patched({ op: 'remove', path: 'name.honorificSuffix' })['name']).not.toHaveProperty('honorificSuffix');
		const without = patched({ op: 'remove', path: enterpriseUrn });
		expect(without).not.toHaveProperty([enterpriseUrn]);
		expect(without['schemas']).toEqual(['urn:ietf:params:scim:schemas:core:2.0:User']);
	});

	test.each([
		[{ op: 'remove' }, 'noTarget'],
		[{ op: 'remove', path: 'userName' }, 'mutability'],
		[{ op: 'remove', path: 'id' }, 'mutability'],
		[{ op: 'remove', path: 'emails[type eq "none"]' }, 'noTarget']
	])('%o is refused with %s', (operation, scimType) => {
		expect(patch(operation)).toMatchObject({ ok: false, error: { status: 400, scimType } });
	});
});

describe('RFC 7644, section 3.5.2.3, replace', () => {
	test('the example of a work address chosen by a filter', () => {
		const value = {
			type: 'work',
			streetAddress: '911 Universal City Plaza',
			locality: 'Hollywood',
			region: 'CA',
			postalCode: '91608',
			country: 'US',
			formatted: '911 Universal City Plaza\nHollywood, CA 91608 US',
			primary: true
		};
		const after = patched({ op: 'replace', path: 'addresses[type eq "work"]', value });
		expect(after['addresses']).toEqual([value, enterpriseUser.addresses[1]]);
	});

	test('the example of one part of it', () => {
		const path = 'addresses[type eq "work"].streetAddress';
		const after = patched({ op: 'replace', path, value: '1010 Broadway Ave' });
		expect(after['addresses']).toEqual([
			{ ...enterpriseUser.addresses[0], streetAddress: '1010 Broadway Ave' },
			enterpriseUser.addresses[1]
		]);
	});

	test('the example without a path replaces all addresses and the nickname', () => {
		const emails = [
			{ value: 'bjensen@example.com', type: 'work', primary: true },
			{ value: 'babs@jensen.org', type: 'home' }
		];
		expect(patched({ op: 'replace', value: { emails: emails.slice(0, 1), nickName: 'Barbs' } })).toMatchObject({
			emails: emails.slice(0, 1),
			nickName: 'Barbs'
		});
	});

	test('keeps the parts of a complex attribute that are not given', () => {
		const after = patched({ op: 'replace', path: 'name', value: { familyName: 'Smith' } });
		expect(after['name']).toEqual({ ...enterpriseUser.name, familyName: 'Smith' });
	});

	test('with a filter that fits nothing is refused with noTarget', () => {
		expect(patch({ op: 'replace', path: 'addresses[type eq "none"].country', value: 'US' })).toMatchObject({
			error: { scimType: 'noTarget' }
		});
	});
});

describe('as identity providers send it', () => {
	test('capitals of op, keys and attributes, and true and false in quotes', () => {
		const result = patchUser(user, {
			schemas: ['urn:ietf:params:scim:api:messages:2.0:PatchOp'],
			operations: [{ Op: 'Replace', Path: 'ACTIVE', Value: 'False' }]
		});
		expect(result).toMatchObject({ ok: true, value: { active: false } });
	});

	test('attributes with the URN before them and parts with dots as keys', () => {
		const value = { [`${enterpriseUrn}:department`]: 'Night Tours', 'name.givenName': 'Barb', id: 'ignored' };
		const after = patched({ op: 'replace', value });
		expect(after).toMatchObject({ name: { givenName: 'Barb' }, [enterpriseUrn]: { department: 'Night Tours' } });
		expect(patched({ op: 'add', path: `${enterpriseUrn}:manager`, value: 'abc' })).toMatchObject({
			[enterpriseUrn]: { manager: { value: 'abc' } }
		});
	});

	test('attributes that are not kept pass; unknown ones are refused with the nearest', () => {
		expect(patched({ op: 'replace', path: 'roles[primary eq "True"].value', value: 'x' })).toBe(user);
		expect(patch({ op: 'replace', path: 'titel', value: 'x' })).toMatchObject({
			error: { scimType: 'invalidPath', detail: expect.stringContaining('did you mean title?') as string }
		});
	});

	test('all operations or none: the first that is wrong is told', () => {
		expect(
			patch({ op: 'replace', path: 'title', value: 'Driver' }, { op: 'replace', path: 'active', value: 'perhaps' })
		).toMatchObject({
			ok: false,
			error: { scimType: 'invalidValue', detail: expect.stringMatching(/^Operation 2/) as string }
		});
	});
});

const path = fc.constantFrom(
	...[
		'title',
		'emails',
		'emails.value',
		'emails[type eq "work"]',
		'emails[type eq "home"].value',
		'name',
		'name.familyName'
	],
	...[
		'active',
		'id',
		'schemas',
		enterpriseUrn,
		`${enterpriseUrn}:department`,
		'addresses[region eq "CA"].country',
		'[',
		''
	]
);
const value: fc.Arbitrary<Json> = fc.oneof(
	fc.constantFrom<Json>('x', true, null, 7, [], {}, [{ value: 'a', primary: true }], { value: 'b', type: 'work' }),
	fc.jsonValue({ maxDepth: 2 }) as fc.Arbitrary<Json>
);
const operation = fc.record({ op: fc.constantFrom('add', 'replace', 'remove'), path, value }, { requiredKeys: ['op'] });

test('whatever comes, the user stays one that reads as it is, or nothing changes', () => {
	fc.assert(
		fc.property(fc.array(operation, { minLength: 1, maxLength: 4 }), (operations) => {
			const result = patch(...(operations as JsonObject[]));
			if (!result.ok) {
				expect(result.error.status).toBe(400);
				return;
			}
			expect(readUser(result.value)).toEqual({ ok: true, value: result.value });
		}),
		{ numRuns: 500 }
	);
});
