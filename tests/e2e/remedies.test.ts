import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Locator } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { violationsOf } from '../support/accessibility';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { shortSite } from '../support/short-site';
import { Desk, squeezed } from './pages/desk';

const browser = useBrowser();
let app: RunningApp;
let documents: string;
beforeAll(async () => {
	documents = await mkdtemp(path.join(tmpdir(), 'doorwright-short-'));
	await writeFile(path.join(documents, 'shortfall-depot.json'), JSON.stringify(shortSite()));
	app = await startApp({ env: { DOORWRIGHT_DEMO: documents } });
});
afterAll(async () => {
	await app.stop();
	await rm(documents, { recursive: true, force: true });
});

it('a proof is read, its remedy weighed, tried, made, planned anew and taken back', async () => {
	const desk = new Desk(await browser.open({ expectedTroubles: [/status of 422/] }), app.url, 'shortfall-depot');
	const { page } = desk;
	const plan = async (booked: string): Promise<void> => {
		await page.getByLabel('Seconds at most').fill('3');
		await page.getByRole('button', { name: 'Plan the sessions' }).click();
		await page.getByText(booked).waitFor({ timeout: 60_000 });
	};
	await desk.open('E-2');
	await plan('3 people booked in 1 session; 3 not booked.');
	await page
		.getByText('together need 40 minutes, and there are 30 at the stations that they could use.')
		.first()
		.waitFor();
	expect(await page.locator('article dd').allInnerTexts()).toEqual(expect.arrayContaining(['40 min', '30 min']));
	const remedies = page.getByRole('table', { name: 'Remedies, the cheapest first' }).first();
	const first = (): Locator => remedies.getByRole('row').nth(1);
	expect(squeezed(await first().innerText())).toMatch(/^Open desk .* min of an open lane/u);
	expect(await violationsOf(page)).toEqual([]);

	// Another cost table, another order, without planning again.
	await page.getByLabel("Installer's day").fill('dear');
	expect(await desk.send(page.getByRole('button', { name: 'Save the cost table' }))).toBe(422);
	await page.getByLabel("Installer's day").fill('1');
	expect(await desk.send(page.getByRole('button', { name: 'Save the cost table' }))).toBe(303);
	expect(squeezed(await first().innerText())).toMatch(
		/^Let First wave be enrolled until 2027-01-12 .* 1 installer's day 1/u
	);

	const revision = await desk.titleBlock('Revision');
	await first().getByRole('button', { name: 'Try as a what-if' }).click();
	await page.getByRole('heading', { name: 'Side by side' }).waitFor({ timeout: 60_000 });
	const booked = page.getByRole('table', { name: 'Plans' }).getByRole('row', { name: /People booked/ });
	expect(await booked.getByRole('cell').allInnerTexts()).toEqual(['3', '6']);
	expect(await desk.titleBlock('Revision')).toBe(revision);
	expect(await violationsOf(page)).toEqual([]);

	expect(await desk.send(page.getByRole('button', { name: 'Make these changes' }))).toBe(303);
	expect(await desk.heading()).toContain('E-2');
	expect(await desk.titleBlock('Revision')).not.toBe(revision);
	await plan('6 people booked in 1 session; 0 not booked.');
	await desk.takeBack();
	expect(await desk.titleBlock('Revision')).toBe(revision);

	await desk.open('E-4');
	await desk.send(page.getByRole('button', { name: 'Discard' }));
	expect(await page.getByRole('heading', { name: 'Side by side' }).count()).toBe(0);
}, 180_000);
