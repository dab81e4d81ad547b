import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk, squeezed } from './pages/desk';
import { RolloutsPage } from './pages/rollouts-page';

// Files that nobody should have sent: each is refused with a place and what was expected there, and nothing is kept.

const browser = useBrowser();
let app: RunningApp;
let tutorial = '';
beforeAll(async () => {
	app = await startApp();
	tutorial = (await rollouts()).find(({ name }) => name === 'Ember Lane Kiln Yard')?.id ?? '';
});
afterAll(() => app.stop());

interface Row {
	readonly id: string;
	readonly name: string;
	readonly revision: string;
}

/** Every rollout with its revision: the same list before and after means that nothing was stored. */
async function rollouts(): Promise<readonly Row[]> {
	const response = await fetch(`${app.url}/api/v1/rollouts`);
	return ((await response.json()) as { rollouts: Row[] }).rollouts;
}

const damaged = (name: string) => readFileSync(`demo-data/damaged/${name}`);

describe('a document that cannot be read', () => {
	const cases: readonly [name: string, content: Buffer, said: RegExp][] = [
		['empty.json', Buffer.alloc(0), /empty|nothing/i],
		['truncated.json', damaged('truncated.json'), /JSON|ends|line/i],
		['utf-16.json', damaged('utf-16.json'), /another encoding.*UTF-8/],
		['picture.png', Buffer.concat([Buffer.from('89504e470d0a1a0a', 'hex'), randomBytes(4000)]), /UTF-8|JSON/],
		['list.csv', Buffer.from('Number,Name\nK01,Rosalind\n'), /JSON/],
		['unknown-keys.json', damaged('unknown-keys.json'), /\$\.site\.timezone.*timeZone/],
		['dangling-ids.json', damaged('dangling-ids.json'), /\$\.doors\[2\]\.from/],
		['duplicate-keys.json', damaged('duplicate-keys.json'), /\$\.site\.name/]
	];

	it.each(cases)('%s is refused on the sheet of rollouts with the place', async (name, content, said) => {
		const before = await rollouts();
		const page = new RolloutsPage(await browser.open({ expectedTroubles: [/status of 422/] }), app.url);
		await page.open();
		expect(await page.bring(name, content)).toBe(422);
		const alert = squeezed(await page.page.getByRole('alert').first().innerText());
		expect(alert).toMatch(said);
		expect(alert).toContain('Nothing was changed');
		expect(alert).toContain('$');
		expect(await rollouts()).toEqual(before);
	});

	it('50 MB of noise is refused, and the server goes on answering', async () => {
		const before = await rollouts();
		const body = new FormData();
		body.set('document', new Blob([randomBytes(50_000_000)]), 'noise.json');
		const response = await fetch(`${app.url}/?/import`, { method: 'POST', body, headers: { accept: 'text/html' } });
		expect(response.status).toBeGreaterThanOrEqual(400);
		expect(response.status).toBeLessThan(500);
		const text = await response.text();
		expect(text).toMatch(/UTF-8|JSON|bytes/);
		// What is sent back shows where it is wrong, not the whole of it.
		expect(text.length).toBeLessThan(300_000);
		expect(await rollouts()).toEqual(before);
	});

	it('more than 60 MB are refused before they are read', async () => {
		const response = await fetch(`${app.url}/?/import`, {
			method: 'POST',
			body: randomBytes(60_000_001),
			headers: { 'content-type': 'multipart/form-data; boundary=x', accept: 'text/html' }
		});
		expect(response.status).toBe(413);
		expect(await response.text()).toContain('at most 60000000 bytes');
	});

	it('a form without a file asks for one', async () => {
		const response = await fetch(`${app.url}/?/import`, {
			method: 'POST',
			body: new FormData(),
			headers: { accept: 'text/html' }
		});
		expect(response.status).toBe(422);
		expect(await response.text()).toContain('choose a file first');
	});
});

describe('a staff list that cannot be read', () => {
	const cases: readonly [name: string, content: Buffer, said: RegExp][] = [
		['empty.csv', Buffer.alloc(0), /empty|nothing/i],
		['noise.csv', damaged('noise.csv'), /text/i],
		['roster-cut-in-quote.csv', damaged('roster-cut-in-quote.csv'), /quote/i]
	];

	it.each(cases)('%s is refused on the sheet of the roster', async (name, content, said) => {
		const before = await rollouts();
		const desk = new Desk(await browser.open({ expectedTroubles: [/status of 4\d\d/] }), app.url, tutorial);
		await desk.open('P-2');
		const input = desk.page.locator('input[type=file]').first();
		await input.setInputFiles({ name, mimeType: 'text/csv', buffer: content });
		expect(await desk.send(desk.page.getByRole('button', { name: 'Read it' }))).toBe(422);
		expect(squeezed(await desk.page.getByRole('alert').first().innerText())).toMatch(said);
		expect(await rollouts()).toEqual(before);
	});
});
