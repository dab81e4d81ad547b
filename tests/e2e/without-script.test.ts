import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk, squeezed } from './pages/desk';
import { RolloutsPage } from './pages/rollouts-page';
import { SchedulePage } from './pages/schedule-page';

// Everything that matters works in a browser that runs no script: pages are made by the server, forms are plain forms.

const browser = useBrowser();
let app: RunningApp;
let id = '';
beforeAll(async () => {
	app = await startApp();
	const { rollouts } = (await (await fetch(`${app.url}/api/v1/rollouts`)).json()) as {
		rollouts: { id: string; name: string }[];
	};
	id = rollouts.find(({ name }) => name === 'Ember Lane Kiln Yard')?.id ?? '';
});
afterAll(() => app.stop());

async function enter(expectedTroubles: readonly RegExp[] = []): Promise<Desk> {
	return new Desk(await browser.open({ javaScriptEnabled: false, expectedTroubles }), app.url, id);
}

describe('without script', () => {
	it('starts a rollout and fills its first areas', async () => {
		const page = await browser.open({ javaScriptEnabled: false });
		const rollouts = new RolloutsPage(page, app.url);
		await rollouts.open();
		const made = await rollouts.start('Harrow Ford Mill', 'Europe/London', '2027-01-01', '2027-06-30');
		const form = page.locator('form[action*="putArea"]');
		await form.getByLabel(/^Id/).fill('street');
		await form.getByRole('button', { name: 'Add' }).click();
		await page.getByRole('table', { name: 'Areas' }).getByRole('link', { name: 'street' }).waitFor();
		expect(made).not.toBe('');
	});

	it('adds a door, changes it, and removes it', async () => {
		const desk = await enter();
		await desk.open('S-1');
		const form = desk.page.locator('form[action*="putDoor"]');
		await form.getByLabel(/^Id/).fill('side');
		await form.getByLabel('Name', { exact: true }).fill('Side door');
		await form.getByLabel(/^From/).selectOption('lane');
		await form.getByLabel(/^To/).selectOption('studio');
		expect(await desk.send(form.getByRole('button', { name: 'Add' }))).toBe(303);
		await desk.page.getByRole('table', { name: 'Doors' }).getByRole('link', { name: 'Side door' }).click();
		await form.getByLabel('Name', { exact: true }).fill('Side door, east');
		expect(await desk.send(form.getByRole('button', { name: 'Save' }))).toBe(303);
		const link = desk.page.getByRole('table', { name: 'Doors' }).getByRole('link', { name: 'Side door, east' });
		await link.click();
		const removal = desk.page.locator('details', { has: desk.page.locator('form[action*="removeDoor"]') });
		await removal.locator('summary').click();
		expect(await desk.send(removal.getByRole('button', { name: 'Remove' }))).toBe(303);
		expect(await link.count()).toBe(0);
	});

	it('changes a schedule by typing, and tells what cannot be read at its day', async () => {
		const desk = await enter([/status of 422/]);
		const firing = new SchedulePage(desk, 'firing');
		await firing.open();
		await firing.type({ Monday: '05:30-22:30', Tuesday: '5 o’clock' });
		expect(await firing.save()).toBe(422);
		expect(await firing.typed('Monday').inputValue()).toBe('05:30-22:30');
		expect(await firing.typed('Tuesday').inputValue()).toBe('5 o’clock');
		expect(await firing.typed('Tuesday').getAttribute('aria-invalid')).toBe('true');
		await firing.type({ Tuesday: '05:30-22:30' });
		expect(await firing.save()).toBe(303);
		await firing.open();
		expect(await firing.typed('Tuesday').inputValue()).toBe('05:30-22:30');
	});

	it('plans, with a page that looks again by itself until the proposal is there', async () => {
		const desk = await enter();
		await desk.open('E-2');
		await desk.page.getByLabel('Seconds at most').fill('2');
		await desk.page.getByRole('button', { name: 'Plan the sessions' }).click();
		await desk.page.getByRole('heading', { name: /^Proposal \d+/ }).waitFor({ timeout: 90_000 });
		expect(squeezed(await desk.page.locator('#proposal').innerText())).toMatch(/11 people booked/);
		await desk.page.getByRole('button', { name: 'Adopt these bookings' }).click();
		await desk.page.getByText(/Adopted by change no\./).waitFor();
	});
});
