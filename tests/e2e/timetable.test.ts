import type { Locator, Page } from 'playwright-core';
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

/** Somebody of the demo who stands at 08:40 on the first date, between others, and is not locked there. */
const name = 'Itzel Cantú';

async function timetableOf(options: Parameters<typeof browser.open>[0] = {}): Promise<Desk> {
	const desk = new Desk(await browser.open(options), app.url, 'larkfen-cold-store');
	await desk.open('E-2', '?date=2027-01-11');
	return desk;
}

const blockOf = (page: Page, who = name): Locator => page.locator('.lane a.booking', { hasText: who });
const startOf = (page: Page): Promise<string> => blockOf(page).locator('span').innerText();
const said = async (page: Page): Promise<string> => squeezed(await page.locator('figure [role=status]').innerText());

/** Drags the block by so many minutes, as the timetable is drawn. */
async function drag(page: Page, minutes: number): Promise<void> {
	const block = blockOf(page);
	await page.locator('figcaption').evaluate((element) => element.scrollIntoView());
	const box = await block.boundingBox();
	const hour = await page
		.locator('.lane')
		.first()
		.evaluate((lane) => {
			const [first, second] = [...lane.querySelectorAll('.line')].map((line) => line.getBoundingClientRect().top);
			return (second ?? 0) - (first ?? 0);
		});
	if (!box) throw new Error('the block is not drawn');
	const [x, y] = [box.x + 30, box.y + box.height / 2];
	await page.mouse.move(x, y);
	await page.mouse.down();
	await page.mouse.move(x, y + (minutes * hour) / 120, { steps: 4 });
	await page.mouse.move(x, y + (minutes * hour) / 60, { steps: 4 });
	await page.mouse.up();
}

describe('the session timetable', () => {
	it('moves a booking by keys, keeps to the rules, and takes it back', async () => {
		const desk = await timetableOf();
		const { page } = desk;
		const block = blockOf(page);
		const revision = await desk.titleBlock('Revision');
		await block.focus();
		await page.keyboard.press('Enter');
		expect(await said(page)).toContain('picked up. 08:40, Training room, lane 1.');
		await page.keyboard.press('ArrowDown');
		expect(await said(page)).toContain('08:45, Training room, lane 1. The lane is taken by Latrice Tarver');
		expect(await violationsOf(page)).toEqual([]);
		await page.keyboard.press('Enter');
		expect(await said(page)).toMatch(/^Not put down\. The lane is taken/);
		expect(await desk.titleBlock('Revision')).toBe(revision);
		await page.keyboard.press('Shift+ArrowDown');
		expect(await said(page)).toBe('09:10, Training room, lane 1. Every rule is kept.');
		await page.keyboard.press('Escape');
		expect(await said(page)).toContain('back where they were');
		expect(await startOf(page)).toBe('08:40');
		await expect.poll(() => block.evaluate((element) => element === document.activeElement)).toBe(true);

		await page.keyboard.press('Space');
		await page.keyboard.press('Shift+ArrowDown');
		await page.keyboard.press('ArrowDown');
		await page.keyboard.press('Enter');
		await page.getByText('Saved: Itzel Cantú, 09:15, Training room, lane 1.').waitFor();
		await expect.poll(() => startOf(page)).toBe('09:15');
		expect(await desk.titleBlock('Revision')).not.toBe(revision);

		expect(await desk.send(page.getByRole('button', { name: 'Take the move back' }))).toBe(303);
		expect(await startOf(page)).toBe('08:40');
		expect(await desk.titleBlock('Revision')).toBe(revision);
	});

	it('is dragged by a pointer; a refused drop saves nothing and says why', async () => {
		const desk = await timetableOf();
		const { page } = desk;
		const revision = await desk.titleBlock('Revision');
		await drag(page, -10);
		await expect.poll(() => said(page)).toMatch(/^Not put down\. The lane is taken by Efraín Quintanilla/);
		expect(await startOf(page)).toBe('08:40');
		expect(await desk.titleBlock('Revision')).toBe(revision);

		await drag(page, 60);
		await page.getByText(/^Saved: Itzel Cantú, 09:40/).waitFor();
		await expect.poll(() => startOf(page)).toBe('09:40');
		expect(page.url()).not.toContain('booking=');
		await desk.takeBack();
	});

	it('saves nothing that somebody else has made impossible meanwhile', async () => {
		const desk = await timetableOf();
		const { page } = desk;
		await blockOf(page).focus();
		await page.keyboard.press('Enter');
		await page.keyboard.press('Shift+ArrowDown');
		const other = await timetableOf();
		await blockOf(other.page).click();
		expect(await other.send(other.page.getByRole('button', { name: 'Lock in this place' }))).toBe(303);
		await page.keyboard.press('Enter');
		await expect.poll(() => said(page)).toMatch(/^Not saved\. .*Is fixed at 2027-01-11 08:40/);
		await expect.poll(() => blockOf(page).innerText()).toContain('fixed');
		await other.takeBack();
	});

	it('carries a booking to another date', async () => {
		const desk = await timetableOf();
		const { page } = desk;
		await blockOf(page).focus();
		await page.keyboard.press('Enter');
		await page.keyboard.press('PageDown');
		await page.locator('figcaption', { hasText: 'January 12' }).waitFor();
		expect(await said(page)).toMatch(/^2027-01-12\. 08:40, Training room, lane 1\. Every rule is kept\./);
		await page.keyboard.press('Enter');
		await page.waitForURL(/date=2027-01-12/);
		await expect.poll(() => startOf(page)).toBe('08:40');
		await desk.takeBack();
	});

	it('books somebody without a booking where they fit', async () => {
		const desk = await timetableOf();
		const { page } = desk;
		await page.getByText(/^Put somebody without a booking/).click();
		const { length } = await page.locator('.lane a.booking').all();
		for (const button of await page.locator('details ul button').all()) {
			await button.click();
			const down = page.getByRole('button', { name: 'Put down here' });
			if (await down.isEnabled()) {
				await down.click();
				break;
			}
			await page.getByRole('button', { name: 'Put back' }).click();
		}
		await page.getByText(/^Saved:/).waitFor();
		await expect.poll(() => page.locator('.lane a.booking').count()).toBe(length + 1);
		await desk.takeBack();
	});

	it('tells why somebody is where they are, also without script', async () => {
		const desk = await timetableOf({ javaScriptEnabled: false });
		const { page } = desk;
		await desk.follow(blockOf(page));
		const note = page.getByRole('complementary').filter({ hasText: `Why ${name} is here` });
		const text = squeezed(await note.innerText());
		for (const fact of ['Open 08:30-11:30', 'Walk', 'Away 08:', 'On shift', 'Enroll by 2027-01-15']) {
			expect(text).toContain(fact);
		}
		expect(await note.getByRole('link', { name }).getAttribute('href')).toContain('/people/00531');
	});
});
