import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Locator } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { violationsOf } from '../support/accessibility';
import { useBrowser } from '../support/browser';
import { enrollSite } from '../support/enroll-site';
import { type RunningApp, startApp } from '../support/server';
import { Desk, squeezed } from './pages/desk';

const rollout = 'movable-depot';
const moment = '2027-01-11 08:30';
const headers = { 'content-type': 'application/json' };

/** Two bookings that are over at the moment, two to come, and somebody who is not booked yet. */
function movableSite() {
	const starts = ['2027-01-11T08:00', '2027-01-11T08:10', '2027-01-12T08:00', '2027-01-12T08:10'];
	const bookings = starts.map((start, index) => ({
		person: `p${index + 1}`,
		station: 'desk',
		lane: 1,
		start: start as never,
		minutes: 10
	}));
	return enrollSite({
		people: Array.from({ length: 5 }, (_, index) => ({ id: `p${index + 1}`, name: `Person ${index + 1}` })),
		minutes: [10],
		grid: 5,
		open: { desk: ['2027-01-11 08:00-09:00', '2027-01-12 08:00-09:00'] },
		more: { bookings },
		rest: { site: { name: 'Movable Depot', timeZone: 'America/Chicago' } }
	});
}

const browser = useBrowser();
let app: RunningApp;
let documents: string;
beforeAll(async () => {
	documents = await mkdtemp(path.join(tmpdir(), 'doorwright-movable-'));
	await writeFile(path.join(documents, `${rollout}.json`), JSON.stringify(movableSite()));
	app = await startApp({ env: { DOORWRIGHT_DEMO: documents } });
});
afterAll(async () => {
	await app.stop();
	await rm(documents, { recursive: true, force: true });
});

it('what happened is reported, what it breaks planned anew, accepted, taken back, and refused when outdated', async () => {
	const desk = new Desk(
		await browser.open({ expectedTroubles: [/status of (409|412)/, /status of 422/] }),
		app.url,
		rollout
	);
	const { page } = desk;
	const button = (name: string): Locator => page.getByRole('button', { name, exact: true });
	const told = (name: string): Locator =>
		page.getByRole('table', { name: 'Bookings to come' }).getByRole('row', { name: new RegExp(name) });
	const planAnew = async (): Promise<void> => {
		await button(`Plan anew from ${moment}`).click();
		await button('Accept as one change').waitFor({ timeout: 60_000 });
	};
	await desk.open('E-2');
	await desk.follow(page.getByRole('link', { name: 'Replan' }));
	await page.getByLabel('From', { exact: true }).fill(moment);
	await desk.follow(button('Look at this moment'));
	await page.getByText(`From ${moment} on, 2 bookings hold`).waitFor();

	// Told and locked, by clicks.
	for (const name of ['Person 3', 'Person 4']) await page.getByLabel(`Choose ${name}`).check();
	await page.getByLabel('Told on').fill('2027-01-05');
	expect(await desk.send(button('Mark as told'))).toBe(303);
	expect(squeezed(await told('Person 3').innerText())).toMatch(/2027-01-12 08:00 desk .*told on 2027-01-05$/u);
	await page.getByLabel('Choose Person 4').check();
	expect(await desk.send(button('Lock'))).toBe(303);
	expect(squeezed(await told('Person 4').innerText())).toContain('locked');

	// One did not come, one was enrolled, and the station is shut where the third one is booked.
	await page.getByLabel('Person 1 (p1)', { exact: true }).check();
	expect(await desk.send(button('Record the visits'))).toBe(303);
	await page.getByLabel('Person 2 (p2)', { exact: true }).check();
	await page.getByLabel('Those ticked').selectOption('enrolled');
	expect(await desk.send(button('Record the visits'))).toBe(303);
	const shut = async (begin: string, end: string): Promise<number> => {
		const at = page.getByText('A station or a lane is out of order');
		if (!(await page.getByRole('textbox', { name: /^Begin/ }).isVisible())) await at.click();
		await page.getByRole('textbox', { name: /^Begin/ }).fill(begin);
		await page.getByRole('textbox', { name: /^End/ }).fill(end);
		return desk.send(button('Shut the station for this time'));
	};
	expect(await shut('2027-01-12 08:10', '2027-01-12 08:00')).toBe(422);
	expect(await page.getByRole('textbox', { name: /^Begin/ }).inputValue()).toBe('2027-01-12 08:10');
	expect(await shut('2027-01-12 08:00', '2027-01-12 08:10')).toBe(303);
	const broken = page.getByRole('table', { name: '2 people need another booking' });
	expect(squeezed(await broken.innerText())).toMatch(
		/Person 3 .*2027-01-12 08:00 desk Does not lie inside .*Person 1 .*did not come$/u
	);
	await page.getByText('1 not booked yet').waitFor();

	await planAnew();
	const changes = page.getByRole('table', { name: '3 changes' });
	const change = async (name: string): Promise<string> =>
		squeezed(await changes.getByRole('row', { name: new RegExp(name) }).innerText());
	expect(await change('Person 1')).toMatch(/another place did not come 2027-01-11 08:00 desk 2027-01-1/u);
	expect(await change('Person 3')).toMatch(/another place .*2027-01-12 08:00 desk 2027-01-1.*tell again$/u);
	expect(await change('Person 5')).toMatch(/newly booked was not booked 2027-01-1/u);
	expect(await violationsOf(page)).toEqual([]);
	const revision = await desk.titleBlock('Revision');
	expect(await desk.send(button('Accept as one change'))).toBe(303);
	expect(await desk.titleBlock('Revision')).not.toBe(revision);
	await page.getByText('Every booking to come keeps every rule, and nobody must come again.').waitFor();
	expect(squeezed(await told('Person 3').innerText())).toContain('tell anew; knows of 2027-01-12 08:00 desk');
	expect(squeezed(await told('Person 4').innerText())).toMatch(/2027-01-12 08:10 desk locked .*told on 2027-01-05$/u);
	expect(await violationsOf(page)).toEqual([]);
	await desk.takeBack();
	expect(await desk.titleBlock('Revision')).toBe(revision);
	expect(await broken.count()).toBe(1);

	// Somebody else changes the rollout while a proposal is read.
	await planAnew();
	const absence = { collection: 'absences', entry: { person: 'p5', from: '2027-01-11', until: '2027-01-11' } };
	const at = `${app.url}/api/v1/rollouts/${rollout}/edits/put-entry`;
	expect((await page.request.post(at, { headers, data: absence })).ok()).toBe(true);
	const before = await desk.titleBlock('Revision');
	expect([409, 412]).toContain(await desk.send(button('Accept as one change')));
	expect(await button('Accept as one change').count()).toBe(0);
	await page.getByText('The rollout was changed since; plan anew before anything is accepted.').waitFor();
	expect(before).toBe(revision);

	await page.getByLabel('Choose Person 4').check();
	expect(await desk.send(button('Unlock'))).toBe(303);
	expect(squeezed(await told('Person 4').innerText())).not.toContain('locked');
}, 180_000);
