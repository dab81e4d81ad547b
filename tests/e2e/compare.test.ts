import { afterAll, beforeAll, expect, it } from 'vitest';
import { violationsOf } from '../support/accessibility';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk } from './pages/desk';

const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

it('an issued revision, an edit after it, its cloud, who loses by it, and neither once it is taken back', async () => {
	const desk = new Desk(await browser.open(), app.url, 'larkfen-cold-store');
	const { page } = desk;
	await desk.open('G-2');
	await page.getByLabel('What this revision is for').fill('For the electrician');
	await page.getByRole('button', { name: 'Issue this revision' }).click();
	await page.getByRole('link', { name: 'Compare A with now' }).waitFor();
	expect(await desk.titleBlock('Revision')).toMatch(/^A · /);

	await desk.open('A-3');
	expect(await page.getByText('changed since revision A').count()).toBe(0);
	const edited = await page.evaluate(async () => {
		const at = '/api/v1/rollouts/larkfen-cold-store';
		const document = (await (await fetch(at)).json()) as { schedules: { id: string; week: object }[] };
		const entry = { ...document.schedules.find(({ id }) => id === 'office-hours'), week: { tue: ['08:00-12:00'] } };
		const headers = { 'content-type': 'application/json' };
		const body = JSON.stringify({ collection: 'schedules', at: 'office-hours', entry });
		return (await fetch(`${at}/edits/put-entry`, { method: 'POST', headers, body })).status;
	});
	expect(edited).toBe(200);

	await desk.open('A-1');
	expect(await page.getByText('changed since revision A').count()).toBe(1);
	expect(await page.getByText('Schedule Office hours: week.mon').count()).toBe(1);
	expect(await desk.titleBlock('Revision')).toMatch(/^B draft · /);
	expect(await violationsOf(page)).toEqual([]);

	await desk.open('A-6');
	expect(await page.getByText(/^All 3 people with the job Sprinkler fitter/).count()).toBe(1);
	expect(await page.getByText(/^lose [\d,]+ h.* each/).count()).toBeGreaterThan(0);
	expect(await violationsOf(page)).toEqual([]);

	await desk.takeBack();
	await desk.open('A-6');
	expect(await page.getByText('Nobody gains and nobody loses a minute at any door.').count()).toBe(1);
	await desk.open('A-1');
	expect(await page.getByText('changed since revision A').count()).toBe(0);
}, 120_000);
