import type { Page } from 'playwright-core';
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

/** Id of the cell, or field, that has the focus. */
const focusedIn = (page: Page) =>
	page.evaluate(() => document.activeElement?.closest('td[id], th[id]')?.id ?? document.activeElement?.tagName);

describe('the grid of people by doors', () => {
	it('is one stop of the tab key, and walked by arrows, pages and ends through all of its rows', async () => {
		const desk = await deskOf();
		const { page } = desk;
		await desk.open('A-4', '?rows=person&columns=doors&week=2027-02-15');
		const grid = page.getByRole('grid', { name: /^Week of/ });
		expect(await grid.getAttribute('aria-rowcount')).toBe('241');
		expect(await grid.locator('a[tabindex="0"]').count()).toBe(1);
		// Far fewer rows are on the page than the grid has.
		expect(await grid.getByRole('row').count()).toBeLessThan(40);
		await grid.locator('a[tabindex="0"]').focus();
		await page.keyboard.press('ArrowRight');
		await page.keyboard.press('ArrowDown');
		expect(await focusedIn(page)).toBe('cell-1-1');
		await page.keyboard.press('Control+End');
		await page.waitForFunction(() => document.activeElement?.closest('td')?.id === 'cell-239-15');
		await page.waitForFunction(() => document.activeElement?.getAttribute('data-stop') === 'there');
		await page.keyboard.press('Home');
		expect(await focusedIn(page)).toBe('row-239');
		await page.keyboard.press('Control+Home');
		await page.waitForFunction(() => document.activeElement?.closest('th')?.id === 'row-0');
		await page.keyboard.press('PageDown');
		await page.waitForFunction(() => /^row-([6-9]|\d\d)$/.test(document.activeElement?.closest('th')?.id ?? ''));
		expect(await violationsOf(page)).toEqual([]);
	});

	it('leads from a cell to its reason by Enter, and keeps the focus and the place', async () => {
		const desk = await deskOf();
		const { page } = desk;
		await desk.open('A-4', '?rows=person&columns=doors&week=2027-02-15&page=3');
		await page.getByRole('grid').locator('a[tabindex="0"]').focus();
		await page.keyboard.press('PageDown');
		await page.keyboard.press('ArrowRight');
		await page.waitForFunction(() => document.activeElement?.getAttribute('data-stop') === 'there');
		const cell = await focusedIn(page);
		await page.keyboard.press('Enter');
		await page.locator('#reason').waitFor();
		expect(await focusedIn(page)).toBe(cell);
		expect(new URL(page.url()).searchParams.get('page')).not.toBeNull();
	});

	it('is narrowed to the cells with access, and told how many of a row may', async () => {
		const desk = await deskOf();
		const { page } = desk;
		await desk.open('A-4', '?week=2027-02-15&sort=-people');
		expect(await page.getByRole('gridcell', { name: /^2 of 19 people: some only/ }).count()).toBeGreaterThan(0);
		await page.locator('summary', { hasText: 'Filters and order' }).click();
		await page.getByLabel('Only cells').selectOption({ label: 'with access' });
		await desk.follow(page.getByRole('button', { name: 'Show', exact: true }));
		expect(await page.getByRole('columnheader', { name: 'Visitors' }).count()).toBe(0);
		expect(page.url()).not.toContain('department=');
	});

	it('can be paged through without script', async () => {
		const desk = await deskOf({ javaScriptEnabled: false });
		const { page } = desk;
		await desk.open('A-4', '?rows=person&columns=doors');
		await page.getByRole('navigation', { name: 'Pages of rows' }).getByRole('link', { name: 'Next' }).click();
		await page.waitForURL(/page=2/);
		expect(await page.locator('#row-32').count()).toBe(1);
	});
});

describe('the plan through the day', () => {
	it('fills rooms as one slides, without asking the server, and says so in words', async () => {
		const desk = await deskOf();
		const { page } = desk;
		await desk.open('A-4', '?person=00106&at=2027-02-04T05:00');
		const part = page.locator('#reach');
		const slider = part.getByRole('slider', { name: /^Time of 2027-02-04/ });
		expect(await slider.getAttribute('aria-valuetext')).toBe(
			'05:00, 0 of 7 areas within reach, 2 work areas out of reach'
		);
		const asked: string[] = [];
		page.on('request', (request) => asked.push(request.url()));
		await slider.focus();
		for (let press = 0; press < 6; press++) await page.keyboard.press('ArrowRight');
		expect(await slider.getAttribute('aria-valuetext')).toBe('05:30, 6 of 7 areas within reach');
		expect(await part.locator('g.reached').count()).toBe(6);
		expect(squeezed(await part.getByRole('row', { name: /^Packing hall/ }).innerText())).toBe(
			'Packing hall 05:30–22:30 within reach'
		);
		await part.getByRole('link', { name: 'Next change: 22:30' }).click();
		expect(await slider.getAttribute('aria-valuetext')).toContain('22:30, 0 of 7');
		expect(asked).toEqual([]);
		expect(page.url()).toContain('at=2027-02-04T22%3A30');
		expect(await violationsOf(page)).toEqual([]);
	});

	it('has 25 hours where the clock is turned back, and steps through the day without script', async () => {
		// 15 U.S.C. 260a: the first Sunday of November at 2 a.m.
		const scripted = await deskOf();
		await scripted.open('A-4', '?person=00106&at=2027-11-07T01:30&clock=later');
		const slider = scripted.page.getByRole('slider');
		expect(await slider.getAttribute('max')).toBe(String(25 * 60 - 1));
		expect(await slider.getAttribute('aria-valuetext')).toContain('01:30 UTC-06:00 (second time)');
		const plain = await deskOf({ javaScriptEnabled: false });
		await plain.open('A-4', '?person=00106&at=2027-02-04T05:00');
		await plain.page.locator('#reach').getByRole('link', { name: 'Next change: 05:30' }).click();
		await plain.page.waitForURL(/at=2027-02-04T05%3A30/);
		expect(await plain.page.locator('#reach .now').innerText()).toContain('6 of 7 areas within reach');
	});
});

describe('what schedules do on holidays', () => {
	const cell = 'Cleaning on half-day holidays';

	it('is decided in place by key, checked again, and taken back; the focus returns to the cell', async () => {
		const desk = await deskOf();
		const { page } = desk;
		await desk.open('A-2', '?year=2027');
		const grid = page.getByRole('grid');
		await grid.locator('a[tabindex="0"]').focus();
		const target = page.getByRole('link', { name: new RegExp(`^${cell}: undecided`) });
		const id = await target.evaluate((link) => link.closest('td')?.id ?? '');
		const [row = 0, column = 0] = id.split('-').slice(1).map(Number);
		for (let press = 0; press < row; press++) await page.keyboard.press('ArrowDown');
		for (let press = 0; press < column; press++) await page.keyboard.press('ArrowRight');
		expect(await focusedIn(page)).toBe(id);
		await page.keyboard.press('Enter');
		await page.waitForFunction(() => document.activeElement?.tagName === 'SELECT');
		expect(await violationsOf(page)).toEqual([]);
		await page.keyboard.press('Escape');
		await page.waitForFunction((there) => document.activeElement?.closest('td')?.id === there, id);
		await page.keyboard.press('Enter');
		await page.waitForFunction(() => document.activeElement?.tagName === 'SELECT');
		await page.getByLabel(cell, { exact: true }).selectOption({ label: 'closed' });
		expect(await desk.send(page.locator('#treat-editor').getByRole('button', { name: 'Save' }))).toBe(303);
		expect(await page.getByRole('status').innerText()).toMatch(/Saved as change no\. \d+.*Checked again/s);
		expect(await focusedIn(page)).toBe(id);
		expect(await page.getByRole('link', { name: new RegExp(`^${cell}: closed`) }).count()).toBe(1);
		expect(await desk.send(page.getByRole('button', { name: 'Take this change back' }))).toBe(303);
		expect(await page.getByRole('link', { name: new RegExp(`^${cell}: undecided`) }).count()).toBe(1);
	});

	it('is decided without script, and what cannot be read is refused at its place', async () => {
		const desk = await deskOf({ javaScriptEnabled: false, expectedTroubles: [/status of 422/] });
		const { page } = desk;
		await desk.open('A-2', '?year=2027');
		await page.getByRole('link', { name: new RegExp(`^${cell}: undecided`) }).click();
		const editor = page.locator('#treat-editor');
		await editor.getByLabel(cell, { exact: true }).selectOption({ label: 'hours of its own' });
		await editor.getByLabel(`Hours of ${cell}`).fill('noon');
		expect(await desk.send(editor.getByRole('button', { name: 'Save' }))).toBe(422);
		expect(await editor.innerText()).toContain('Found "noon"');
		await editor.getByLabel(`Hours of ${cell}`).fill('17-20');
		expect(await desk.send(editor.getByRole('button', { name: 'Save' }))).toBe(303);
		expect(await page.getByRole('link', { name: new RegExp(`^${cell}: 17:00–20:00`) }).count()).toBe(1);
	});
});
