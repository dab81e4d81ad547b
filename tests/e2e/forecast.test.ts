import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { violationsOf } from '../support/accessibility';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk, squeezed } from './pages/desk';

const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

const deskOf = async (options: Parameters<typeof browser.open>[0] = {}) =>
	new Desk(await browser.open(options), app.url, 'larkfen-cold-store');

describe('what is likely to come', () => {
	it('a forecast is played out as a job, with a fan, a table and the assumptions beside', async () => {
		const desk = await deskOf({ expectedTroubles: [/status of 422/] });
		const { page } = desk;
		await desk.open('E-3');
		await page.getByLabel('Futures').fill('300');
		await page.getByRole('button', { name: 'Forecast', exact: true }).click();
		await page.getByRole('heading', { name: 'Enrolled over time' }).waitFor({ timeout: 60_000 });
		expect(squeezed(await page.locator('#found ~ p').first().innerText())).toContain(
			'300 futures played out with seed 1'
		);
		expect(await page.locator('path.band').getAttribute('d')).toMatch(/^M[\d.]+ [\d.]+L/);
		expect(await page.locator('path.due').count()).toBe(3);
		expect(await page.getByRole('table', { name: 'Waves' }).getByRole('row').count()).toBe(4);
		expect(await violationsOf(page)).toEqual([]);

		await page.getByLabel('Do not come, %').fill('101');
		expect(await desk.send(page.getByRole('button', { name: 'Save the assumptions' }))).toBe(422);
		await page.getByLabel('Do not come, %').fill('12.5');
		expect(await desk.send(page.getByRole('button', { name: 'Save the assumptions' }))).toBe(303);
		expect(await page.getByLabel('Do not come, %').inputValue()).toBe('12.5');
		await page.getByText('The rollout was changed since; forecast again.').waitFor();
		await desk.takeBack();
	});

	it('long work is stopped with what there is', async () => {
		const desk = await deskOf();
		const { page } = desk;
		await desk.open('E-3');
		await page.getByLabel('Futures').fill('1000000');
		await page.getByRole('button', { name: 'Forecast', exact: true }).click();
		await page.getByRole('button', { name: 'Stop with what there is' }).click();
		await page.getByText('It was stopped early.').waitFor({ timeout: 60_000 });
	});

	it('changes are tried side by side, and nothing is changed', async () => {
		const desk = await deskOf({ expectedTroubles: [/status of 422/] });
		const { page } = desk;
		await desk.open('E-4');
		const revision = await desk.titleBlock('Revision');
		expect(await desk.send(page.getByRole('button', { name: 'Plan both' }))).toBe(422);
		await page.getByText('at least one change to try').waitFor();
		await page.getByLabel('Station').selectOption({ label: 'Training room' });
		await page.getByLabel('More lanes').fill('1');
		await page.getByLabel('Seconds at most').fill('2');
		await page.getByRole('button', { name: 'Plan both' }).click();
		await page.getByRole('heading', { name: 'Side by side' }).waitFor({ timeout: 60_000 });
		await page.getByText('Training room: 2 lanes').waitFor();
		const figures = page.getByRole('table', { name: 'Plans' });
		expect(
			await figures
				.getByRole('row', { name: /People booked/ })
				.getByRole('cell')
				.count()
		).toBe(2);
		expect(await desk.titleBlock('Revision')).toBe(revision);
		expect(await violationsOf(page)).toEqual([]);
	});
});
