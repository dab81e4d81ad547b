import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { colorSetCookie } from '../../src/lib/components/sheet/color-set';
import { sheets } from '../../src/lib/components/sheet/sheets';
import { violationsOf } from '../support/accessibility';
import { useBrowser } from '../support/browser';
import { fullSheets, useColors } from '../support/full-sheets';
import { judgeSheets } from '../support/judged-sheets';
import { type RunningApp, startApp } from '../support/server';
import { Desk } from './pages/desk';

// axe-core judges about half of what WCAG asks for; the keyboard has its own tests, and contrast is measured for every
// pair of tokens besides. The second half of the sheets is judged in accessibility-records.test.ts, so that two
// processors share the longest of the tests.

const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

judgeSheets(fullSheets.slice(0, Math.ceil(fullSheets.length * 0.4)), browser, () => app);

describe('the blueprint set', () => {
	it(`is served to whoever chose it by the cookie ${colorSetCookie}`, async () => {
		const page = await browser.open();
		const areUsed = await useColors(page, app.url, 'blueprint');
		await page.goto(app.url, { waitUntil: 'networkidle' });
		await areUsed();
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
