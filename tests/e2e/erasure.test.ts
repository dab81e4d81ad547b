import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { useBrowser } from '../support/browser';
import { larkfen } from '../support/full-sheets';
import { type RunningApp, startApp } from '../support/server';
import { Desk, squeezed } from './pages/desk';

// One way through the work orders: the template of 00242, who left on 13 November 2026, is overdue and left at one place.

const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

describe('an erasure work order', () => {
	it('is opened for all that is due, waits for a place and a second person, and ends with a certificate', async () => {
		const desk = new Desk(await browser.open({ expectedTroubles: [/status of 422/] }), app.url, larkfen);
		const { page } = desk;
		const orders = `/r/${larkfen}/retention/orders`;
		const entry = (heading: string) =>
			page.locator('section.entry', { has: page.getByRole('heading', { name: heading, exact: true }) });
		const main = async () => squeezed(await page.locator('main').innerText());

		await desk.visit(orders);
		const rules = entry('Second pair of eyes');
		await rules.getByRole('checkbox').check();
		expect(await desk.send(rules.getByRole('button', { name: 'Save' }))).toBe(303);
		await desk.visit(`${orders}?edit=training`);
		const place = page.locator('form[action*="putPlace"]');
		await place.getByLabel('Offline since').fill('2026-11-20');
		expect(await desk.send(place.getByRole('button', { name: 'Save' }))).toBe(303);

		const opening = entry('New order');
		const due = Number(/\d+/.exec(await opening.getByText('All due or overdue').innerText())?.[0]);
		expect(due).toBeGreaterThan(0);
		await opening.getByLabel('All due or overdue').check();
		expect(await desk.send(opening.getByRole('button', { name: 'Open' }))).toBe(303);
		const response = await fetch(`${app.url}/api/v1/rollouts/${larkfen}`);
		const { people, privacy } = (await response.json()) as {
			people: { id: string; name: string }[];
			privacy: { templates: { person: string }[]; erasureOrders: { id: string; person: string }[] };
		};
		expect(privacy.erasureOrders).toHaveLength(due);
		const order = privacy.erasureOrders.find(({ person }) => person === '00242')?.id ?? '';
		const name = people.find(({ id }) => id === '00242')?.name ?? '';

		// What cannot be reached is not offered, and stays open.
		await desk.visit(`${orders}?order=${order}`);
		expect(await main()).toContain('offline, stays open');
		expect(await entry('Report as erased').count()).toBe(0);
		await desk.visit(`${orders}?edit=training`);
		await place.getByLabel('Offline since').fill('');
		expect(await desk.send(place.getByRole('button', { name: 'Save' }))).toBe(303);

		await desk.visit(`${orders}?order=${order}`);
		const report = entry('Report as erased');
		await report.getByRole('checkbox').check();
		await report.getByLabel(/^By/).fill('Imke Tolland');
		await report.getByLabel('Evidence').fill('deletion log 7');
		expect(await desk.send(report.getByRole('button', { name: 'Report' }))).toBe(303);
		expect(await main()).toContain('waits for the second pair of eyes');
		await desk.visit(`/r/${larkfen}/retention/certificate/00242`);
		expect(await desk.heading()).toContain('No certificate yet');

		// The same person under other capitals is refused on the sheet of the order; somebody else is not.
		await desk.visit(`${orders}?order=${order}`);
		for (const [by, status] of [
			['imke TOLLAND', 422],
			['Oriel Maddock', 303]
		] as const) {
			const second = page.locator('form[action*="second"]');
			await second.getByRole('checkbox').check();
			await second.getByLabel(/^By/).fill(by);
			expect(await desk.send(second.getByRole('button', { name: 'Record' }))).toBe(status);
			if (status === 422) expect(await main()).toContain('somebody else than Imke Tolland');
		}
		expect(await main()).toContain('Erased everywhere on');

		await desk.visit(`/r/${larkfen}/retention/certificate/00242`);
		expect(await desk.heading()).toContain('Certificate of erasure');
		expect(await main()).toMatch(/Imke Tolland deletion log 7 Oriel Maddock/);
		await desk.open('R-2');
		const row = page.getByRole('table', { name: /^Ledger/ }).getByRole('row', { name: new RegExp(name) });
		expect(squeezed(await row.innerText())).toMatch(/erased/i);

		// 00801 is still employed: three days after the last one, by the rule of the site, or sooner by another.
		const index = privacy.templates.findIndex(({ person }) => person === '00801');
		await desk.open('R-2', `?on=2026-11-25&template=${index}&leaves=2026-12-01`);
		expect(squeezed(await page.locator('#projection').innerText())).toMatch(
			/would have to be erased by 2026-1[12]-\d\d .* Nothing was changed\./
		);
	});
});
