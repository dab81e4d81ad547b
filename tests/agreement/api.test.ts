import { readFileSync, readdirSync } from 'node:fs';
import { afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { allAnswers, answerNames } from '../../src/lib/core/answers';
import { jsonOf } from '../../src/lib/core/answers/define-answer';
import { readRollout } from '../../src/lib/core/answers/support/read-rollout';
import { documentJsonSchema } from '../../src/lib/core/document/json-schema';
import type { Rollout } from '../../src/lib/core/document/schema';
import { applyEdit, edits } from '../../src/lib/core/edits';
import type { Fault } from '../../src/lib/core/kernel/fault';
import { unwatched } from '../../src/lib/core/kernel/work';
import { mostBytes } from '../../src/lib/server/api/receive';
import { prepare } from '../../src/tools/prepare.mjs';
import { call, routes } from '../support/api';
import { useDataFolder } from '../support/data-folder';
import { smallSite } from '../support/small-site';

let data: ReturnType<typeof useDataFolder>;
const damaged = readdirSync('demo-data/damaged').filter((name) => name.endsWith('.json'));
const json = { 'content-type': 'application/json' };
const document = smallSite();
const text = JSON.stringify(document);
const at = '/api/v1/rollouts/mill-lane-depot';

// Long questions are answered by the built worker.
beforeAll(() => prepare(['worker']), 120_000);
beforeEach(async () => {
	data = useDataFolder();
	expect((await call('POST', '/api/v1/rollouts', { body: text, headers: json })).status).toBe(201);
});
afterEach(() => data.end());

function send(address: string, value: unknown, headers: Readonly<Record<string, string>> = {}) {
	return call('POST', address, { body: JSON.stringify(value), headers: { ...json, ...headers } });
}

function pathsOf({ json: body }: { readonly json: unknown }): string[] {
	return (body as { faults: Fault[] }).faults.map((one) => one.path);
}

/** The rollout as the core reads it from the same text. */
function read(from: string = text): Rollout {
	const result = readRollout(from);
	if (!result.ok) throw new Error('the small site can be read');
	return result.value.rollout;
}

/** A change of the small site that is tried. */
const moreLanes = {
	edit: 'put-entry',
	params: {
		collection: 'stations',
		at: 's1',
		entry: { id: 's1', area: 'lobby', lanes: 2, open: [{ date: '2027-01-11', at: '08:00-12:00' }] }
	}
};

/** A call of each question, with parameters for the small site. A question without one here fails the test below. */
const asked: Readonly<Record<string, Record<string, unknown>>> = {
	access: { person: '1002', from: '2027-01-04', until: '2027-01-10' },
	check: {},
	'compare-groups': { with: smallSite({ assignments: [], schedules: [], accessProfiles: [] }) },
	compare: { with: smallSite({ assignments: [], schedules: [], accessProfiles: [] }) },
	explain: { person: '1002', door: 'main', at: '2027-01-04T08:00' },
	who: { area: 'hall', at: '2027-01-04T08:00' },
	mend: { code: 'shift-not-covered', person: '1001', limit: 2 },
	plan: { seconds: 1, seed: 7 },
	forecast: { runs: 20, seed: 7 },
	outlook: { runs: 20, seed: 7 },
	'what-if': { edits: JSON.stringify([moreLanes]), seconds: 1, seed: 7 },
	replan: { from: '2027-01-11T08:30' },
	'walk-in': { open: '08:00-10:00', arrivals: '6,2', lanes: 2 },
	'station-time': { confidence: 0.95 },
	'matching-risk': { digits: 6 },
	'person-record': { person: '1002', on: '2027-06-01' },
	retention: { on: '2027-06-01' }
};

/** The API takes another document as it is written, the core takes it read. */
function coreParams(name: string, params: Record<string, unknown>): Record<string, unknown> {
	return name.startsWith('compare') ? { with: read(JSON.stringify(params['with'])) } : params;
}

describe('core and API', () => {
	test('every question is called below', () => {
		expect(answerNames.filter((name) => !(name in asked))).toEqual([]);
	});

	test.each(answerNames)('give the same answer to %s', async (name) => {
		const question = (await allAnswers()).get(name);
		const params = asked[name] ?? {};
		const own = await question?.run(read(), question.params.parse(coreParams(name, params)), unwatched);
		if (!question || !own?.ok) throw new Error('the question has an answer');
		const posted = await send(`${at}/answers/${name}`, params);
		expect(posted.status).toBe(200);
		expect(posted.json).toEqual(JSON.parse([...jsonOf(question, own.value)].join('')));
		if (Object.values(params).some((value) => typeof value === 'object')) return;
		const query = new URLSearchParams(Object.entries(params).map(([key, value]) => [key, String(value)]));
		expect((await call('GET', `${at}/answers/${name}?${query.toString()}`)).json).toEqual(posted.json);
	});

	test('refuse the same parameters with the same faults', async () => {
		const question = (await allAnswers()).get('explain');
		const params = { person: '1009', door: 'mian', at: '2027-01-04T08:00' };
		const own = await question?.run(read(), question.params.parse(params), unwatched);
		const posted = await send(`${at}/answers/explain`, params);
		expect(posted.status).toBe(422);
		expect((posted.json as { faults: Fault[] }).faults).toEqual(own?.ok === false ? own.faults : 'nothing refused');
		expect(pathsOf(posted)).toEqual(['$.person', '$.door']);
	});

	test('make the same change, and the API records it', async () => {
		const params = {
			collection: 'doors',
			at: 'inner',
			entry: { id: 'inner', from: 'lobby', to: 'hall', name: 'Inner door' }
		};
		const before = readRollout(text);
		const own = before.ok ? applyEdit(before.value, 'put-entry', params) : before;
		const posted = await call('POST', `${at}/edits/put-entry`, {
			body: JSON.stringify(params),
			headers: json,
			actor: 'Otto'
		});
		expect(posted.status).toBe(200);
		expect(posted.json).toMatchObject({
			lastChange: 2,
			change: { number: 2, who: 'Otto', what: 'Door inner changed', edit: 'put-entry' }
		});
		expect((await call('GET', at)).json).toEqual(own.ok ? own.value.document : 'nothing changed');
		expect((await call('GET', `${at}/changes`)).json).toMatchObject({ changes: [{ number: 2 }, { number: 1 }] });
		expect((await call('GET', `${at}/changes/2`)).json).toMatchObject({
			touched: [{ path: 'doors', after: { value: params.entry } }]
		});
	});
});

describe('the document', () => {
	test('is listed, sent back as it came, replaced, taken back and deleted by name', async () => {
		expect((await call('GET', '/api/v1/rollouts')).json).toMatchObject({
			rollouts: [{ id: 'mill-lane-depot', people: 3, doors: 2 }]
		});
		const got = await call('GET', at);
		expect(got.json).toEqual(document);
		const etag = got.headers.get('etag') ?? '';
		const other = JSON.stringify(smallSite({ absences: [] }));
		const put = await call('PUT', at, { body: other, headers: { ...json, 'if-match': etag } });
		expect(put).toMatchObject({ status: 200, json: { lastChange: 2 } });
		expect((await call('PUT', at, { body: text, headers: { ...json, 'if-match': etag } })).status).toBe(412);
		expect((await call('GET', at)).json).toEqual(JSON.parse(other));
		expect((await call('POST', `${at}/undo`)).json).toMatchObject({ change: { number: 3, undoes: 2 } });
		expect((await call('GET', at)).json).toEqual(document);
		expect((await call('GET', at)).headers.get('etag')).toBe(etag);
		expect((await call('POST', `${at}/redo`)).status).toBe(200);
		expect((await call('DELETE', at)).status).toBe(409);
		expect((await call('DELETE', `${at}?name=Mill%20Lane%20Depot`)).status).toBe(200);
		expect((await call('GET', at)).status).toBe(404);
		expect((await call('POST', `${at}/restore`)).status).toBe(200);
		expect((await call('GET', at)).json).toEqual(JSON.parse(other));
	});

	test('has its schema', async () => {
		expect((await call('GET', '/api/v1/schema')).json).toEqual(documentJsonSchema());
	});
});

describe('what is wrong is refused, and nothing changes', () => {
	afterEach(async () => {
		expect((await call('GET', at)).json).toEqual(document);
		expect(((await call('GET', '/api/v1/rollouts')).json as { rollouts: unknown[] }).rollouts).toHaveLength(1);
	});
	const post = (body: BodyInit, headers = json) => call('POST', '/api/v1/rollouts', { body, headers });

	test('no JSON, an empty file, another encoding: 400', async () => {
		for (const body of ['', '{"format":', 'nonsense', new Uint8Array([0xff, 0xfe, 0x00])]) {
			const refused = await post(body);
			expect(refused.status).toBe(400);
			expect(pathsOf(refused)).toEqual(['$']);
		}
		expect((await send(`${at}/edits/put-entry`, undefined)).status).toBe(422);
		expect((await call('POST', `${at}/edits/put-entry`, { body: '{"a":1,"a":2}', headers: json })).status).toBe(400);
		expect((await call('POST', `${at}/edits/put-entry`, { body: '{"__proto__":2}', headers: json })).status).toBe(400);
	});

	test('a document with faults: 422 with every one', async () => {
		const refused = await post(JSON.stringify({ ...document, horizon: { from: '2027-02-30', until: 1 }, aeras: [] }));
		expect(refused.status).toBe(422);
		expect(pathsOf(refused).sort()).toEqual(['$.aeras', '$.horizon.from', '$.horizon.until']);
		expect((await post('[]')).status).toBe(422);
	});

	test.each(damaged)('the damaged file %s: 400 or 422, each fault with its place', async (name) => {
		const refused = await post(readFileSync(`demo-data/damaged/${name}`));
		expect([400, 422]).toContain(refused.status);
		expect(pathsOf(refused).length).toBeGreaterThan(0);
		for (const one of (refused.json as { faults: Fault[] }).faults) {
			expect(one.path).toMatch(/^\$/);
			expect(one.message).toContain('expected');
		}
	});

	test('another content type: 415', async () => {
		for (const type of ['text/plain', 'application/x-www-form-urlencoded', '']) {
			expect((await call('POST', '/api/v1/rollouts', { body: text, headers: { 'content-type': type } })).status).toBe(
				415
			);
		}
		expect((await call('PUT', at, { body: text, headers: { 'content-type': 'text/csv' } })).status).toBe(415);
	});

	test('50 MB of noise: 413 as soon as the length is told, and when it is not, before the end', async () => {
		const noise = new Uint8Array(50_000_000).fill(0x5b);
		expect((await post(noise, { ...json, 'content-length': '50000000' } as typeof json)).status).toBe(413);
		let sent = 0;
		const endless = new ReadableStream<Uint8Array>({
			pull(controller) {
				sent += 1_000_000;
				controller.enqueue(noise.subarray(0, 1_000_000));
			}
		});
		const request = { body: endless, duplex: 'half', headers: json } as unknown as { body: BodyInit };
		expect((await call('POST', '/api/v1/rollouts', request)).status).toBe(413);
		expect(sent).toBeLessThan(mostBytes + 5_000_000);
	});

	test('JSON made to exhaust the reader: 422, briefly', async () => {
		const deep = (open: string, close: string) => open.repeat(100_000) + close.repeat(100_000);
		for (const body of [deep('[', ']'), `{"site":${deep('{"a":', '}').replace('{"a":}', '{}')}}`]) {
			const refused = await post(body);
			expect(refused.status).toBe(422);
			expect(refused.text.length).toBeLessThan(10_000);
		}
		const many = await post(`{"people":[${'{},'.repeat(120_000)}{}]}`);
		expect(many.status).toBe(422);
		const { faults } = many.json as { faults: Fault[] };
		expect(faults[0]?.expected).toContain('fewer faults');
		expect(faults.filter((one) => one.path.startsWith('$.people['))).toHaveLength(100_000);
	});

	test('what is not there: 404 with the nearest name', async () => {
		const missing = await call('GET', '/api/v1/rollouts/mill-lane-depo');
		expect(missing).toMatchObject({
			status: 404,
			json: { faults: [{ path: '$.rollout', nearest: 'mill-lane-depot' }] }
		});
		expect((await send(`${at}/answers/chek`, {})).json).toMatchObject({ faults: [{ nearest: 'check' }] });
		expect((await send(`${at}/answers/chek`, {})).status).toBe(404);
		expect((await send(`${at}/edits/put-entri`, {})).status).toBe(404);
		expect((await call('GET', `${at}/changes/77`)).status).toBe(404);
		expect((await call('GET', `${at}/changes/x`)).status).toBe(404);
		expect((await call('GET', `${at}/jobs/x`)).status).toBe(404);
		expect((await call('GET', `${at}/proposals/1`)).status).toBe(404);
		expect((await call('GET', '/api/v1/rolouts')).status).toBe(404);
		expect((await call('PUT', '/api/v1/rollouts/nowhere', { body: text, headers: json })).status).toBe(404);
	});

	test('a method that an address does not take: 405 with those that it does', async () => {
		const refused = await call('PUT', '/api/v1/rollouts', { body: text, headers: json });
		expect(refused.status).toBe(405);
		expect(refused.headers.get('allow')).toBe('GET, POST');
	});

	test('a change that cannot be taken back: 409', async () => {
		expect((await call('POST', `${at}/undo`)).status).toBe(409);
		expect((await send(`${at}/undo`, { change: 'first' })).status).toBe(422);
		expect(
			(await send(`${at}/edits/put-entry`, { collection: 'areas', at: 'hall', entry: { id: 'hall' }, was: {} })).status
		).toBe(409);
	});

	test('an entry that is named elsewhere: 422, and everything that names it', async () => {
		const refused = await send(`${at}/edits/remove-entry`, { collection: 'doors', at: 'main' });
		expect(refused.status).toBe(422);
		expect(refused.text).toContain('Door main is used by door group perimeter.');
		expect(refused.text).toContain('Door main is used by reader r1.');
	});
});

describe('the description', () => {
	test('has every address and method of the API, and no other', async () => {
		const { paths } = (await call('GET', '/api/v1/openapi.json')).json as { paths: Record<string, object> };
		const described = Object.entries(paths).flatMap(([path, methods]) =>
			Object.keys(methods).map((method) => `${method} ${path}`)
		);
		const named = { '{name}': { answers: answerNames, edits: [...edits.keys()] } };
		const served = routes
			.filter(({ path }) => !path.includes('[...'))
			.flatMap(({ path, handlers }) => {
				const below = path.replace('/api/v1', '').replace(/\[(\w+)\]/g, '{$1}');
				const names = below.includes('/answers/')
					? named['{name}'].answers
					: below.includes('/edits/')
						? named['{name}'].edits
						: [''];
				return Object.keys(handlers)
					.filter((method) => method !== 'fallback')
					.flatMap((method) => names.map((name) => `${method.toLowerCase()} ${below.replace('{name}', name)}`));
			});
		expect(described.sort()).toEqual(served.sort());
	});

	test('refers only to what is in it', async () => {
		const body = (await call('GET', '/api/v1/openapi.json')).json as Record<string, unknown>;
		const refs = [...JSON.stringify(body).matchAll(/"\$ref":"#\/([^"]+)"/g)].map(([, path]) => path ?? '');
		expect(refs.length).toBeGreaterThan(10);
		for (const ref of new Set(refs)) {
			const target = ref.split('/').reduce<unknown>((value, key) => (value as Record<string, unknown>)[key], body);
			expect(target, ref).toBeDefined();
		}
	});
});
