import { afterAll, beforeAll, describe, expect, it } from 'vitest';
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

const deskOf = async (options: Parameters<typeof browser.open>[0] = {}) =>
	new Desk(await browser.open(options), app.url, 'larkfen-cold-store');

const ofFitters = '/mend?code=no-route&person=00261&door=engine-inner';

describe('ways to mend', () => {
	it('from a finding to a change that clears it, and back', async () => {
		const desk = await deskOf();
		const { page } = desk;
		await desk.open('A-5');
		const revision = await desk.titleBlock('Revision');
		const finding = page.getByRole('listitem').filter({ hasText: 'Søren Hjelm' });
		await desk.follow(finding.getByRole('link', { name: 'Ways to mend' }));
		expect(await desk.heading()).toBe('A-5 Ways to mend: No way to the door');
		const first = page.getByRole('region', { name: 'Put Dock entry into door group Way of the sprinkler fitters' });
		expect(await first.innerText()).toContain('2 other people gain 5,949 h at 1 door');
		expect(await first.getByRole('table').innerText()).toContain('Marisol Tovar (00592) and Maeve Farragher (00710)');
		expect(await violationsOf(page)).toEqual([]);

		expect(await desk.send(page.getByRole('button', { name: 'Apply mend 1', exact: true }))).toBe(303);
		await page.getByText('The finding is cleared').waitFor();
		expect(await page.getByRole('button', { name: /Apply mend/ }).count()).toBe(0);
		expect(await desk.titleBlock('Revision')).not.toBe(revision);
		expect(await violationsOf(page)).toEqual([]);

		expect(await desk.send(page.getByRole('button', { name: 'Take it back' }))).toBe(303);
		expect(await desk.titleBlock('Revision')).toBe(revision);
		expect(await page.getByRole('button', { name: 'Apply mend 1', exact: true }).count()).toBe(1);
	});

	it('a mend of several entries is one change', async () => {
		const desk = await deskOf();
		const { page } = desk;
		await desk.open('A-5', '/mend?code=holiday-lockout&person=00347');
		const revision = await desk.titleBlock('Revision');
		const own = page.getByRole('region', { name: /^1 Give Alonzo Tarver \(00347\) a profile of their own/ });
		await own.waitFor();
		expect(await desk.send(own.getByRole('button'))).toBe(303);
		await page.getByText('The finding is cleared').waitFor();
		await desk.takeBack();
		await desk.open('A-5');
		expect(await desk.titleBlock('Revision')).toBe(revision);
	});

	it('is not applied to a state that nobody looked at', async () => {
		const desk = await deskOf({ expectedTroubles: [/status of 409/] });
		const { page } = desk;
		await desk.open('A-5', ofFitters);
		const other = await deskOf();
		await other.open('A-5', '/mend?code=schedule-overlap&schedule=floor-days&day=sat');
		expect(await other.send(other.page.getByRole('button', { name: 'Apply mend 1', exact: true }))).toBe(303);
		const revision = await other.titleBlock('Revision');

		expect(await desk.send(page.getByRole('button', { name: 'Apply mend 1', exact: true }))).toBe(409);
		expect(await page.getByRole('alert').innerText()).toContain('it was changed since');
		expect(await desk.titleBlock('Revision')).toBe(revision);
		expect(await desk.send(page.getByRole('button', { name: 'Apply mend 1', exact: true }))).toBe(303);
		await page.getByText('The finding is cleared').waitFor();
		await desk.takeBack();
		await desk.takeBack();
	});

	it('works without script', async () => {
		const desk = await deskOf({ javaScriptEnabled: false });
		const { page } = desk;
		await desk.open('A-5', '/mend?code=schedule-overlap&schedule=cleaning&day=sun');
		expect(await page.getByText('Nobody gains and nobody loses a minute at any door.').count()).toBe(3);
		expect(await desk.send(page.getByRole('button', { name: 'Apply mend 1', exact: true }))).toBe(303);
		await page.getByText('The finding is cleared').waitFor();
		expect(await desk.send(page.getByRole('button', { name: 'Take it back' }))).toBe(303);
		await page.getByText('Schedule Cleaning has stretches that overlap on Sunday').waitFor();
	});
});
