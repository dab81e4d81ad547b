import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type PageOptions, useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk, squeezed } from './pages/desk';

// The way of a privacy officer at Larkfen Cold Store. Dates are given, so that the ledger does not depend on the day on
// which the test runs.

const rollout = 'larkfen-cold-store';
const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

async function enter(options: PageOptions = {}): Promise<Desk> {
	return new Desk(await browser.open(options), app.url, rollout);
}

function ledgerRow(desk: Desk, name: string) {
	return desk.page.getByRole('table', { name: /^Ledger/ }).getByRole('row', { name: new RegExp(name) });
}

async function nameOf(id: string): Promise<string> {
	const response = await fetch(`${app.url}/api/v1/rollouts/${rollout}`);
	const { people } = (await response.json()) as { people: { id: string; name: string }[] };
	return people.find((person) => person.id === id)?.name ?? '';
}

describe('the privacy officer', () => {
	it('records that somebody withdraws, and the ledger then asks for the erasure', async () => {
		const desk = await enter();
		// 00307 is due when the site administrator leaves on 18 December; withdrawing counts earlier.
		const name = await nameOf('00307');
		await desk.open('R-2', '?on=2026-11-25');
		const before = squeezed(await ledgerRow(desk, name).innerText());
		await desk.open('R-1');
		const form = desk.page.locator('form[action*="record"]');
		await form.getByLabel(/^Person/).selectOption('00307');
		await form.getByLabel('Withdraws').check();
		await form.getByLabel(/^On/).fill('2026-11-24');
		await form.getByLabel('How', { exact: true }).fill('signed-form');
		expect(await desk.send(form.getByRole('button', { name: 'Record' }))).toBe(303);
		await desk.open('R-1', `?find=${encodeURIComponent(name)}`);
		expect(squeezed(await desk.page.getByRole('row', { name: new RegExp(name) }).innerText())).toMatch(
			/withdr.*2026-11-24/i
		);
		await desk.open('R-2', '?on=2026-11-25');
		const after = squeezed(await ledgerRow(desk, name).innerText());
		expect(after).not.toBe(before);
		expect(after).toMatch(/withdr/i);
	});

	it('does not take a decision on a date that is none, and keeps what was typed', async () => {
		const desk = await enter({ expectedTroubles: [/status of 422/] });
		await desk.open('R-1');
		const form = desk.page.locator('form[action*="record"]');
		await form.getByLabel(/^Person/).selectOption('00151');
		await form.getByLabel('Agrees').check();
		await form.getByLabel(/^On/).fill('24.11.2026');
		const revision = await desk.titleBlock('Revision');
		expect(await desk.send(form.getByRole('button', { name: 'Record' }))).toBe(422);
		expect(squeezed(await desk.page.getByRole('alert').first().innerText())).toContain('24.11.2026');
		expect(await form.getByLabel(/^On/).inputValue()).toBe('24.11.2026');
		expect(await desk.titleBlock('Revision')).toBe(revision);
	});

	it('records erasures place by place until the template counts as erased, with the evidence', async () => {
		const desk = await enter();
		const name = await nameOf('00242');
		await desk.open('R-2', '?on=2026-11-25');
		expect(squeezed(await ledgerRow(desk, name).innerText())).toMatch(/overdue/i);
		const form = desk.page.locator('form[action*="erase"]');
		await desk.follow(ledgerRow(desk, name).getByRole('link'));
		const places = await form.getByRole('checkbox').count();
		expect(places).toBeGreaterThan(0);
		for (let left = places; left > 0; left--) {
			expect(await form.getByRole('checkbox').count()).toBe(left);
			await form.getByRole('checkbox').first().check();
			await form.getByLabel(/^On/).fill('2026-11-25');
			await form.getByLabel('Evidence').fill('report 118');
			expect(await desk.send(form.getByRole('button', { name: 'Record' }))).toBe(303);
			await desk.open('R-2', '?on=2026-11-25');
			expect(squeezed(await ledgerRow(desk, name).innerText())).toMatch(left === 1 ? /erased/i : /overdue/i);
			await desk.follow(ledgerRow(desk, name).getByRole('link'));
		}
		expect(await form.count()).toBe(0);
		expect(squeezed(await desk.page.getByRole('region', { name: /^Template of/ }).innerText())).toContain('report 118');
	});

	it('sees what is held and why, and that counsel decides', async () => {
		const desk = await enter();
		await desk.open('R-2', '?on=2026-11-25');
		expect(squeezed(await ledgerRow(desk, await nameOf('01014')).innerText())).toMatch(/held/i);
		expect(squeezed(await desk.page.locator('main').innerText())).toMatch(/counsel/i);
	});
});
