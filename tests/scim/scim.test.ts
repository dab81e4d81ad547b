import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { enterpriseUrn, rolloutUrn } from '../../src/lib/core/roster/scim/user-schemas';
import type { JsonObject } from '../../src/lib/core/roster/scim/scim-result';
import { acceptDirectory, directoryProposal, setDirectoryAside } from '../../src/lib/server/scim/takeover';
import { listTokens, makeToken, revokeToken, setDirectorySettings } from '../../src/lib/server/scim/tokens';
import { getRollout, importDocument, listChanges, undo } from '../../src/lib/server/rollouts';
import { todayAt } from '../../src/lib/server/clock';
import { useDataFolder } from '../support/data-folder';
import { valueOf } from '../support/outcomes';
import { enterpriseUser } from '../support/scim-examples';
import { ScimClient, idOf, sendDirectly } from './client';

const rollout = 'yard';
const base = `http://127.0.0.1/scim/v2/r/${rollout}`;
const today = todayAt('UTC');

const document = {
	format: 'doorwright.rollout',
	version: 1,
	site: { name: 'Yard', timeZone: 'UTC', country: 'US' },
	horizon: { from: '2027-01-04', until: '2027-12-31' },
	areas: [{ id: 'out', name: 'Outside', outside: true }],
	shiftPatterns: [{ id: 'day', name: 'Day shift', anchor: '2027-01-04', cycleDays: 7, shifts: [] }],
	people: [
		{ id: '1001', name: 'Ada Moss', department: 'Stores' },
		{ id: '1002', name: 'Ben Reed', department: 'Stores', leavesOn: '2099-12-31' }
	]
};

let data: ReturnType<typeof useDataFolder>;
let client: ScimClient;

beforeEach(() => {
	data = useDataFolder();
	valueOf(importDocument(JSON.stringify(document), 'Nora'));
	client = new ScimClient(base, valueOf(makeToken(rollout, 'Directory', 'Nora')), sendDirectly(rollout));
});
afterEach(() => data.end());

function open() {
	const found = getRollout(rollout);
	if (!found) throw new Error('no rollout');
	return found;
}

const people = () => open().rollout.people;
const person = (id: string) => people().find((one) => one.id === id);

function userOf(number: string, more: JsonObject = {}, enterprise: JsonObject = {}): JsonObject {
	return {
		schemas: ['urn:ietf:params:scim:schemas:core:2.0:User', enterpriseUrn],
		userName: `u${number}@example.com`,
		name: { givenName: 'Person', familyName: number },
		active: true,
		[enterpriseUrn]: { employeeNumber: number, ...enterprise },
		...more
	};
}

describe('a token', () => {
	test('is needed for everything, is kept as a hash only, and ends when it is revoked', async () => {
		for (const path of ['/Users', '/ServiceProviderConfig', '/nothing']) {
			const stranger = new ScimClient(base, '', sendDirectly(rollout));
			const answer = await stranger.ask('GET', path);
			expect(answer.status).toBe(401);
			expect(answer.headers.get('www-authenticate')).toBe('Bearer realm="doorwright"');
			expect(answer.body).toMatchObject({ schemas: ['urn:ietf:params:scim:api:messages:2.0:Error'], status: '401' });
		}
		const guessed = await new ScimClient(base, 'guessed', sendDirectly(rollout)).ask('GET', '/Users');
		expect(guessed.headers.get('www-authenticate')).toContain('invalid_token');
		expect((await client.ask('GET', '/Users')).status).toBe(200);
		expect(listTokens(rollout)[0]?.usedAt).not.toBeNull();
		valueOf(revokeToken(rollout, 1, 'Nora'));
		expect((await client.ask('GET', '/Users')).status).toBe(401);
	});

	test('of one rollout opens no other', async () => {
		valueOf(importDocument(JSON.stringify({ ...document, site: { ...document.site, name: 'Mill' } }), 'Nora'));
		const token = valueOf(makeToken('mill', 'Other', 'Nora'));
		const answer = await new ScimClient(base, token, sendDirectly(rollout)).ask('GET', '/Users');
		expect(answer.status).toBe(401);
	});

	test('is held to a rate: 429 with the seconds to wait (RFC 6585, section 4)', async () => {
		const statuses: number[] = [];
		let last = await client.ask('GET', '/Users?count=0');
		for (let n = 0; n < 1000 && last.status === 200; n++) {
			statuses.push(last.status);
			last = await client.ask('GET', '/Users?count=0');
		}
		expect(statuses.length).toBeGreaterThanOrEqual(199);
		expect(last.status).toBe(429);
		expect(Number(last.headers.get('retry-after'))).toBeGreaterThanOrEqual(1);
	});
});

describe('the user of RFC 7643, section 8.3 (V-SCIM-01)', () => {
	test('is created (RFC 7644, section 3.3), and proposed as one person', async () => {
		const created = await client.ask('POST', '/Users', enterpriseUser);
		expect(created.status).toBe(201);
		expect(created.headers.get('content-type')).toMatch(/^application\/scim\+json/);
		const { id, meta } = created.body as { id: string; meta: JsonObject };
		expect(id).not.toBe(enterpriseUser.id);
		expect(created.headers.get('location')).toBe(`${base}/Users/${id}`);
		expect(meta).toMatchObject({ resourceType: 'User', location: `${base}/Users/${id}`, version: 'W/"1"' });
		expect(created.headers.get('etag')).toBe('W/"1"');
		expect(created.body).not.toHaveProperty('password');
		expect(JSON.stringify(created.body)).not.toContain('t1meMa$heen');
		const { people: proposed, changes, problems } = directoryProposal(open());
		expect(changes).toMatchObject({ joined: ['701984'], moved: [], left: [] });
		expect(proposed).toEqual([
			{
				id: '701984',
				name: 'Ms. Barbara J Jensen, III',
				department: 'Tour Operations',
				job: 'Tour Guide',
				email: 'bjensen@example.com',
				language: 'en-US'
			}
		]);
		// The department is a new one at this site: told, and taken as written.
		expect(problems.map(({ code, attribute }) => [code, attribute])).toEqual([['value-unknown', 'department']]);
		expect(people()).toHaveLength(2);
		valueOf(acceptDirectory(open(), 'Nora'));
		expect(person('701984')?.name).toBe('Ms. Barbara J Jensen, III');
		expect(valueOf(listChanges(rollout))[0]?.what).toBe('From the identity provider: 1 joined, 0 changed, 0 left');
		valueOf(undo(rollout, 'Nora'));
		expect(person('701984')).toBeUndefined();
	});

	test('a second one of its user name, in any capitals, or of its number is refused (409, uniqueness)', async () => {
		await client.ask('POST', '/Users', enterpriseUser);
		const again = await client.ask('POST', '/Users', { ...enterpriseUser, userName: 'BJENSEN@example.com' });
		expect(again).toMatchObject({ status: 409, body: { scimType: 'uniqueness', status: '409' } });
		const other = await client.ask('POST', '/Users', { ...enterpriseUser, userName: 'other' });
		expect(other).toMatchObject({ status: 409, body: { scimType: 'uniqueness' } });
	});

	test('active false is a leaver, and nobody is removed (V-SCIM-02)', async () => {
		const created = await client.ask('POST', '/Users', enterpriseUser);
		valueOf(acceptDirectory(open(), 'Nora'));
		await client.patch(idOf(created.body), { op: 'Replace', path: 'active', value: 'False' });
		expect(directoryProposal(open()).changes.left).toEqual([{ person: '701984', leavesOn: today }]);
		valueOf(acceptDirectory(open(), 'Nora'));
		expect(person('701984')?.leavesOn).toBe(today);
		expect(directoryProposal(open()).changes).toMatchObject({ joined: [], moved: [], left: [] });
		// Back again: the last day that came from the provider goes.
		await client.patch(idOf(created.body), { op: 'replace', path: 'active', value: true });
		expect(directoryProposal(open()).changes.moved).toEqual([
			{ person: '701984', fields: { leavesOn: [today, null] } }
		]);
	});
});

describe('fifty users', () => {
	test('are created, paged, sorted, moved and deactivated', async () => {
		for (let n = 0; n < 50; n++) {
			const made = await client.ask('POST', '/Users', userOf(String(2000 + n), {}, { department: 'Stores' }));
			expect(made.status).toBe(201);
		}
		const seen: unknown[] = [];
		for (let startIndex = 1; startIndex <= 50; startIndex += 20) {
			const page = await client.ask('GET', `/Users?startIndex=${startIndex}&count=20&attributes=userName`);
			expect(page.body).toMatchObject({ totalResults: 50, startIndex, itemsPerPage: startIndex === 41 ? 10 : 20 });
			for (const user of page.body['Resources'] as JsonObject[]) {
				expect(Object.keys(user).sort()).toEqual(['id', 'schemas', 'userName']);
				seen.push(user['userName']);
			}
		}
		expect(new Set(seen).size).toBe(50);
		const query = { schemas: ['urn:ietf:params:scim:api:messages:2.0:SearchRequest'], count: 1 };
		const search = { ...query, sortBy: 'userName', sortOrder: 'descending', excludedAttributes: ['name', 'meta'] };
		for (const path of ['/.search', '/Users/.search']) {
			const found = await client.ask('POST', path, search);
			const [first] = found.body['Resources'] as JsonObject[];
			expect(first).toMatchObject({ userName: 'u2049@example.com' });
			expect(first).not.toHaveProperty('name');
			expect(first).not.toHaveProperty('meta');
		}
		valueOf(acceptDirectory(open(), 'Nora'));
		expect(people()).toHaveLength(52);
		const filter = encodeURIComponent('userName eq "U2007@example.com"');
		const found = await client.ask('GET', `/Users?filter=${filter}`);
		const [one] = found.body['Resources'] as JsonObject[];
		await client.patch(idOf(one), { op: 'replace', path: `${enterpriseUrn}:department`, value: 'Dispatch' });
		expect(directoryProposal(open()).changes.moved).toEqual([
			{ person: '2007', fields: { department: ['Stores', 'Dispatch'] } }
		]);
		await client.ask('DELETE', `/Users/${idOf(one)}`);
		expect(directoryProposal(open()).changes).toMatchObject({ moved: [], left: [{ person: '2007', leavesOn: today }] });
		expect((await client.ask('GET', `/Users/${idOf(one)}`)).status).toBe(404);
	});
});

describe('conditions (RFC 7644, section 3.14)', () => {
	test('412 where another change came between, 304 where nothing changed, and no new version for no change', async () => {
		const { body } = await client.ask('POST', '/Users', userOf('3001'));
		const at = `/Users/${idOf(body)}`;
		expect((await client.ask('GET', at, undefined, { 'if-none-match': 'W/"1"' })).status).toBe(304);
		const put = await client.ask('PUT', at, userOf('3001', { title: 'Driver' }), { 'if-match': 'W/"1"' });
		expect([put.status, put.headers.get('etag')]).toEqual([200, 'W/"2"']);
		const late = await client.ask('PUT', at, userOf('3001'), { 'if-match': 'W/"1"' });
		expect(late).toMatchObject({ status: 412, body: { status: '412' } });
		const same = await client.ask('PUT', at, userOf('3001', { title: 'Driver' }), { 'if-match': '*' });
		expect(same.headers.get('etag')).toBe('W/"2"');
		expect((await client.ask('DELETE', at, undefined, { 'if-match': 'W/"9"' })).status).toBe(412);
		expect((await client.ask('DELETE', at, undefined, { 'if-match': 'W/"2"' })).status).toBe(204);
	});
});

describe('applied at once, where the site chose so', () => {
	beforeEach(() => valueOf(setDirectorySettings(rollout, { isApplied: true, address: 'https://doors.example/' })));

	test('joined, moved and left are changes of the record, and addresses are those of the proxy', async () => {
		const made = await client.ask('POST', '/Users', {
			...userOf('4001'),
			[rolloutUrn]: { startsOn: '2020-01-04', shiftPattern: 'Day shift', wave: 'none' }
		});
		expect(made.headers.get('location')).toMatch(/^https:\/\/doors\.example\/scim\/v2\/r\/yard\/Users\//);
		expect(person('4001')).toMatchObject({
			name: 'Person 4001',
			startsOn: '2020-01-04',
			shiftPattern: 'day',
			wave: null
		});
		expect(valueOf(listChanges(rollout))[0]?.who).toBe('identity provider (Directory)');
		await client.ask('DELETE', `/Users/${idOf(made.body)}`);
		expect(person('4001')?.leavesOn).toBe(today);
		const back = await client.ask('POST', '/Users', userOf('4001'));
		expect(back.status).toBe(201);
		expect(person('4001')?.leavesOn).toBeNull();
	});

	test('half of the people leaving on one day wait for a person', async () => {
		const ids: string[] = [];
		for (let n = 0; n < 6; n++) ids.push(idOf((await client.ask('POST', '/Users', userOf(String(5000 + n)))).body));
		for (const id of ids) await client.patch(id, { op: 'replace', path: 'active', value: false });
		// Eight are employed: with the fourth it would be half of them.
		expect(people().filter(({ leavesOn }) => leavesOn === today)).toHaveLength(3);
		expect(directoryProposal(open()).changes.left).toHaveLength(3);
	});
});

describe('people who are here already', () => {
	test('are found by their number; an earlier last day and what the provider does not say stay', async () => {
		const { body } = await client.ask('POST', '/Users', userOf('1002', { name: { formatted: 'Ben Reed' } }));
		expect(directoryProposal(open()).changes.unchanged).toEqual(['1002']);
		await client.patch(idOf(body), { op: 'replace', value: { active: false } });
		expect(directoryProposal(open()).changes.left).toEqual([{ person: '1002', leavesOn: today }]);
		setDirectoryAside(rollout, '1002');
		expect(directoryProposal(open()).changes.left).toEqual([]);
		await client.patch(idOf(body), { op: 'replace', path: 'title', value: 'Picker' });
		expect(directoryProposal(open()).changes.left).toHaveLength(1);
		// Whom the provider never named is not a leaver.
		expect(JSON.stringify(directoryProposal(open()).changes)).not.toContain('1001');
	});

	test('keep their id when the provider gives them another number', async () => {
		const { body } = await client.ask('POST', '/Users', userOf('1001'));
		await client.patch(idOf(body), { op: 'replace', path: `${enterpriseUrn}:employeeNumber`, value: '9001' });
		expect(directoryProposal(open()).changes.joined).toEqual([]);
	});
});

test.each([
	['GET', '/Groups', undefined, 404],
	['GET', '/Users/none', undefined, 404],
	['POST', '/Bulk', {}, 501],
	['GET', '/Me', undefined, 501],
	['DELETE', '/Users', undefined, 405],
	['POST', '/Schemas', {}, 405],
	['GET', '/Schemas?filter=id%20pr', undefined, 403],
	['POST', '/Users', '{"userName":', 400],
	['GET', '/Users?filter=userName%20eq', undefined, 400],
	['GET', '/Users?startIndex=x', undefined, 400]
])('%s %s is refused in the form of RFC 7644, section 3.12', async (method, path, body, status) => {
	const answer = await client.ask(method, path, body);
	expect(answer.status).toBe(status);
	expect(answer.body).toMatchObject({
		schemas: ['urn:ietf:params:scim:api:messages:2.0:Error'],
		status: String(status)
	});
});

test('what the server can do is told (RFC 7644, section 4), and what it tells is what it does', async () => {
	const config = await client.ask('GET', '/ServiceProviderConfig');
	expect(config.body).toMatchObject({
		patch: { supported: true },
		bulk: { supported: false },
		filter: { supported: true, maxResults: 500 },
		etag: { supported: true },
		sort: { supported: true }
	});
	const schemas = await client.ask('GET', '/Schemas');
	expect(schemas.body['totalResults']).toBe(3);
	for (const { id } of schemas.body['Resources'] as { id: string }[]) {
		expect((await client.ask('GET', `/Schemas/${id}`)).body['id']).toBe(id);
	}
	expect((await client.ask('GET', '/ResourceTypes/User')).body).toMatchObject({ endpoint: '/Users' });
});
