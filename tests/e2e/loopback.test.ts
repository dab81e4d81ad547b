import { request as httpRequest } from 'node:http';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApp, type RunningApp } from '../support/server';

// Until there are accounts, whoever can send a request is trusted. So nobody but programs on this machine, and pages of
// the app itself, may get through.

interface Answer {
	readonly status: number;
	readonly headers: Record<string, string | string[] | undefined>;
	readonly text: string;
}

let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(async () => {
	await app.stop();
});

/** Unlike `fetch`, this can send any Host and Origin. */
function ask(method: string, headers: Record<string, string>, body?: Buffer | string): Promise<Answer> {
	return new Promise((resolve, reject) => {
		const sent = httpRequest(`${app.url}/no-such-sheet`, { method, headers }, (response) => {
			let text = '';
			response.setEncoding('utf8').on('data', (chunk: string) => (text += chunk));
			response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, text }));
		});
		sent.once('error', reject);
		sent.end(body);
	});
}

/** Refused with one fault of the kind that every refused input gets. */
function expectFault(answer: Answer, status: number, path: string): void {
	expect(answer.status).toBe(status);
	const text = expect.any(String) as string;
	expect(JSON.parse(answer.text)).toEqual({
		faults: [{ path: `$.${path}`, value: text, expected: text, message: text }]
	});
}

const json = { 'content-type': 'application/json' };

describe('the server', () => {
	it('says in one line where it serves, and that it listens on this machine only', () => {
		const lines = app
			.printed()
			.split('\n')
			.filter((line) => line.includes('http'));
		expect(lines).toEqual([`Doorwright serves ${app.url} and listens on this machine only, until there are accounts.`]);
		expect(new URL(app.url).hostname).toBe('127.0.0.1');
	});

	it('refuses a name that is not its own, as a foreign page with a rebound address would use', async () => {
		expectFault(await ask('GET', { host: 'doors.example' }), 421, 'host');
		expectFault(await ask('GET', { host: 'localhost.doors.example' }), 421, 'host');
	});

	it('answers to localhost', async () => {
		const { port } = new URL(app.url);
		expect((await ask('GET', { host: `localhost:${port}` })).status).toBe(404);
		expect(
			(await ask('POST', { host: `localhost:${port}`, origin: `http://localhost:${port}`, ...json }, '{}')).status
		).not.toBe(403);
	});

	it.each(['application/json', 'text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data; boundary=x'])(
		'refuses a foreign origin for %s',
		async (type) => {
			const headers = { 'content-type': type };
			for (const origin of ['http://doors.example', 'null', 'http://127.0.0.1:1', app.url.replace('http', 'https')]) {
				expectFault(await ask('POST', { ...headers, origin }, 'x'), 403, 'origin');
			}
			expectFault(await ask('POST', { ...headers, 'sec-fetch-site': 'cross-site' }, 'x'), 403, 'origin');
		}
	);

	it('refuses a foreign page that reads, and lets a link from elsewhere lead here', async () => {
		expectFault(await ask('GET', { origin: 'http://doors.example' }), 403, 'origin');
		expect((await ask('GET', { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'navigate' })).status).toBe(404);
	});

	it('lets pages of its own and programs without an origin through', async () => {
		const { status } = await ask('POST', json, '{}');
		expect((await ask('POST', { ...json, origin: app.url, 'sec-fetch-site': 'same-origin' }, '{}')).status).toBe(
			status
		);
		expect(status).not.toBe(403);
	});

	it('believes no header about where a request was sent to', async () => {
		const spoofed = {
			'x-forwarded-host': 'doors.example',
			'x-forwarded-proto': 'https',
			origin: 'https://doors.example'
		};
		expectFault(await ask('POST', { ...spoofed, ...json }, '{}'), 403, 'origin');
	});

	it('refuses an upload that is too large before reading it, with the limit', async () => {
		const answer = await ask('POST', { ...json, 'content-length': '60000001' });
		expectFault(answer, 413, 'upload');
		expect(answer.text).toContain('60000000');
		const forPeople = await ask('POST', { ...json, accept: 'text/html', 'content-length': '60000001' });
		expect(forPeople.text).toMatch(/^Refused: the upload is 60000001 bytes, expected is at most 60000000 bytes/);
	});

	it('tells a form of the app why its upload was refused', async () => {
		const headers = { ...json, accept: 'application/json', 'x-sveltekit-action': 'true', 'content-length': '60000001' };
		const { status, text } = await ask('POST', headers);
		expect(status).toBe(413);
		expect(JSON.parse(text)).toEqual({
			type: 'error',
			error: { message: expect.stringContaining('at most 60000000 bytes') as string }
		});
	});

	it('keeps its pages out of frames, caches and foreign pages', async () => {
		const { headers } = await ask('GET', { accept: 'text/html' });
		expect(headers).toMatchObject({
			'cache-control': 'no-store',
			'x-content-type-options': 'nosniff',
			'x-frame-options': 'DENY',
			'referrer-policy': 'same-origin',
			'cross-origin-resource-policy': 'same-origin',
			'content-security-policy': expect.stringContaining("frame-ancestors 'none'") as string
		});
	});
});

describe('the end of the server', () => {
	it('is clean when it is told to end, and frees the port', async () => {
		const other = await startApp();
		expect(await other.stop()).toBe(0);
		await expect(fetch(other.url)).rejects.toThrow();
	});

	it('comes at once with a plain sentence when the port is taken', async () => {
		const { port } = new URL(app.url);
		await expect(startApp({ env: { PORT: port } })).rejects.toThrow(`port ${port} is in use by another program`);
	});

	it('comes at once when PORT is no port', async () => {
		await expect(startApp({ env: { PORT: 'front' } })).rejects.toThrow('PORT is front, not a port number');
	});
});
