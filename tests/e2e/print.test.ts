import { afterAll, beforeAll, expect, it } from 'vitest';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk } from './pages/desk';

const rollout = 'larkfen-cold-store';
const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

it('prints a sheet with its title block and without what only works on a screen', async () => {
	const page = await browser.open();
	const desk = new Desk(page, app.url, rollout);
	await desk.open('A-5');
	const shown = await desk.titleBlock('Revision');
	await page.emulateMedia({ media: 'print' });
	const block = page.locator('dl[aria-label="Title block"]');
	expect(await block.isVisible()).toBe(true);
	expect(await desk.titleBlock('Site')).toBe('Larkfen Cold Store');
	expect(await desk.titleBlock('Revision')).toBe(shown);
	expect(await desk.titleBlock('Sheet')).toBe('A-5 Findings');
	// A print must say of which moment it is, with the zone.
	expect(await desk.titleBlock('Shown')).toMatch(/\d{4}.*\d{2}:\d{2}.*[A-Z]/);
	expect(await page.getByRole('navigation', { name: 'Sheet index' }).isVisible()).toBe(false);
	const pdf = await page.pdf({ preferCSSPageSize: true });
	// ISO 32000-1, 7.5.2 and 7.7.3.3: the header of a PDF file, and one object of type Page for each page.
	expect(pdf.subarray(0, 5).toString('latin1')).toBe('%PDF-');
	expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0).toBeGreaterThan(0);
});
