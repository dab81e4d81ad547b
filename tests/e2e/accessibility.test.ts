import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { coverSheets } from '../../src/lib/components/sheet/cover-sheets';
import { colorSetCookie } from '../../src/lib/components/sheet/color-set';
import { sheets } from '../../src/lib/components/sheet/sheets';
import { violationsOf } from '../support/accessibility';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk } from './pages/desk';

// axe-core judges about half of what WCAG asks for; the keyboard has its own tests, and contrast is measured for every
// pair of tokens besides.

const larkfen = 'larkfen-cold-store';
const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

/** Every sheet with much on it, and what opens below and within sheets. */
const full = [
	...coverSheets.map(({ href }) => href),
	...sheets.map(({ path }) => `/r/${larkfen}/${path}`),
	`/r/${larkfen}/people/00512`,
	`/r/${larkfen}/schedules/cleaning`,
	`/r/${larkfen}/site?door=drivers`,
	`/r/${larkfen}/holidays?date=2027-07-04`,
	`/r/${larkfen}/retention?on=2026-11-25&template=0`,
	`/r/${larkfen}/plan?date=2027-01-11&booking=0`
];

async function visited(address: string, set: string): Promise<Page> {
	const page = await browser.open();
	await page.context().addCookies([{ name: colorSetCookie, value: set, url: app.url }]);
	await new Desk(page, app.url, larkfen).visit(address);
	expect(await page.locator(`[data-set="${set}"]`).count()).toBe(1);
	return page;
}

describe('on paper', () => {
	it.each(full)('%s has no violation of WCAG 2.2 AA', async (address) => {
		expect(await violationsOf(await visited(address, 'light'))).toEqual([]);
	});
});

describe('in the blueprint set', () => {
	it.each(full)('%s has contrast enough', async (address) => {
		expect(await violationsOf(await visited(address, 'blueprint'), { colorsOnly: true })).toEqual([]);
	});
});

describe('a rollout with nothing in it', () => {
	let id = '';
	beforeAll(async () => {
		const document = {
			format: 'doorwright.rollout',
			version: 1,
			site: { name: 'Empty Wharf', timeZone: 'Europe/London' },
			horizon: { from: '2027-01-01', until: '2027-03-31' }
		};
		const made = await fetch(`${app.url}/api/v1/rollouts`, {
			method: 'POST',
			headers: { 'content-type': 'application/json' },
			body: JSON.stringify(document)
		});
		expect(made.status).toBe(201);
		id = ((await made.json()) as { id: string }).id;
	});

	it.each(sheets.map(({ path }) => path))('has a sheet “%s” without a violation of WCAG 2.2 AA', async (path) => {
		const page = await browser.open();
		await new Desk(page, app.url, id).visit(`/r/${id}/${path}`);
		expect(await violationsOf(page)).toEqual([]);
	});
});

describe('on a narrow screen, as at 400 % zoom', () => {
	// WCAG 2.2, 1.4.10: no scrolling in two directions at a width of 320 CSS pixels.
	it.each(full)('%s is no wider than the screen', async (address) => {
		const page = await browser.open({ viewport: { width: 320, height: 640 } });
		await new Desk(page, app.url, larkfen).visit(address);
		const { scrolled, shown } = await page.evaluate(() => ({
			scrolled: document.documentElement.scrollWidth,
			shown: document.documentElement.clientWidth
		}));
		expect(scrolled).toBeLessThanOrEqual(shown);
	});
});
