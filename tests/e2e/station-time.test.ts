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

describe('what a visit takes', () => {
	it('is put together from stages, moved by a finished visit, planned with and taken back', async () => {
		const page = await browser.open({ expectedTroubles: [/status of 422/] });
		const desk = new Desk(page, app.url, 'larkfen-cold-store');
		await desk.open('E-6', '?class=standard#stages');
		const standard = page
			.getByRole('table', { name: 'Station time by capture class' })
			.getByRole('row', { name: /^Standard/ });
		const figures = async (): Promise<string[]> =>
			(await standard.getByRole('cell').allInnerTexts()).slice(0, 5).map(squeezed);
		// Planned, assumed, visits, their mean, estimate.
		expect(await figures()).toEqual(['8', '8.0', '0', 'none yet', '8.0']);

		// 3 + 4 + 2 fingers x 2 attempts x 15 s + 3 = 11 minutes.
		const stages = page.getByRole('region', { name: 'Stages of Standard' });
		for (const [label, value] of [
			['Identity check, min', '3'],
			['Notice and questions, min', '4'],
			['Fingers', '2'],
			['Attempts a finger', '2'],
			['Seconds an attempt', '15'],
			['Test at a door, min', '3']
		] as const) {
			await stages.getByLabel(label).fill(value);
		}
		expect(await desk.send(stages.getByRole('button', { name: 'Save' }))).toBe(303);
		expect(await figures()).toEqual(['8', '11.0', '0', 'none yet', '11.0']);

		const record = page.getByRole('region', { name: 'Record a visit' });
		await record.getByLabel('Person').selectOption('00512');
		await record.getByLabel('Date').fill('2027-01-11');
		await record.getByLabel('Minutes').fill('a while');
		expect(await desk.send(record.getByRole('button', { name: 'Record' }))).toBe(422);
		await record.getByLabel('Minutes').fill('08:02-08:22');
		expect(await desk.send(record.getByRole('button', { name: 'Record' }))).toBe(303);
		// What was assumed counts for five visits: (5 x 11 + 20) / 6.
		expect(await figures()).toEqual(['8', '11.0', '1', '20.0', '12.5']);
		expect(await violationsOf(page)).toEqual([]);

		await standard.getByText('Plan with 13 minutes').first().click();
		expect(await desk.send(standard.getByRole('button', { name: 'Plan with 13 minutes' }))).toBe(303);
		expect((await figures())[0]).toBe('13');
		await desk.takeBack();
		expect(await figures()).toEqual(['8', '11.0', '1', '20.0', '12.5']);

		await desk.follow(page.getByRole('table', { name: 'Finished visits' }).getByRole('link'));
		const visit = page.getByRole('region', { name: /^Visit of Jürgen Hüttner/ });
		await visit.locator('summary', { hasText: 'Remove' }).click();
		expect(await desk.send(visit.getByRole('button', { name: 'Remove' }))).toBe(303);
		await page.getByText('No visit was recorded yet.').waitFor();
		expect(await figures()).toEqual(['8', '11.0', '0', 'none yet', '11.0']);
	});

	it('time to keep free is told for the confidence that is chosen, and what was asked stays in the form', async () => {
		const page = await browser.open();
		const desk = new Desk(page, app.url, 'larkfen-cold-store');
		await desk.open('E-3');
		await page.getByLabel('Futures').fill('200');
		await page.getByLabel('Seed').fill('4');
		await page.getByLabel('Confidence of the reserve, %').fill('95');
		await page.getByRole('button', { name: 'Forecast', exact: true }).click();
		await page.getByRole('heading', { name: 'Time to keep free' }).waitFor({ timeout: 60_000 });
		await page.getByText('by their due date in 95 % of the futures').waitFor();
		expect(await page.getByLabel('Futures').inputValue()).toBe('200');
		expect(await page.getByLabel('Seed').inputValue()).toBe('4');
		expect(await page.getByLabel('Confidence of the reserve, %').inputValue()).toBe('95');
		// The chosen one is that of its column among the others, and more confidence never takes less.
		const kept = page.getByRole('table', { name: 'To keep free, by due date' }).getByRole('row').nth(1);
		const others = page.getByRole('table', { name: 'With other confidences' }).getByRole('row').nth(1);
		const byConfidence = (await others.getByRole('cell').allInnerTexts()).map(Number);
		expect(byConfidence).toHaveLength(4);
		expect(byConfidence).toEqual([...byConfidence].sort((a, b) => a - b));
		expect(Number(await kept.getByRole('cell').nth(2).innerText())).toBe(byConfidence[2]);
	});
});
