import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { violationsOf } from '../support/accessibility';
import { useBrowser } from '../support/browser';
import { fullSheets, larkfen, useColors } from '../support/full-sheets';
import { type RunningApp, startApp } from '../support/server';
import { Desk } from './pages/desk';

// Apart from accessibility.test.ts, so that two processors share the longest of the tests.

const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

describe('in the blueprint set', () => {
	it.each(fullSheets)('%s has contrast enough', async (address) => {
		const page = await browser.open();
		const areUsed = await useColors(page, app.url, 'blueprint');
		await new Desk(page, app.url, larkfen).visit(address);
		await areUsed();
		expect(await violationsOf(page, { colorsOnly: true })).toEqual([]);
	});
});

describe('on a narrow screen, as at 400 % zoom', () => {
	// WCAG 2.2, 1.4.10: no scrolling in two directions at a width of 320 CSS pixels.
	it.each(fullSheets)('%s is no wider than the screen', async (address) => {
		const page = await browser.open({ viewport: { width: 320, height: 640 } });
		await new Desk(page, app.url, larkfen).visit(address);
		const { scrolled, shown } = await page.evaluate(() => ({
			scrolled: document.documentElement.scrollWidth,
			shown: document.documentElement.clientWidth
		}));
		expect(scrolled).toBeLessThanOrEqual(shown);
	});
});
