import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { type ColorSet, colorSetCookie } from '../../src/lib/components/sheet/color-set';
import { coverSheets } from '../../src/lib/components/sheet/cover-sheets';
import { sheets } from '../../src/lib/components/sheet/sheets';

/** The demo's rollout with most on its sheets. */
export const larkfen = 'larkfen-cold-store';

/** Every sheet with much on it, and what opens below and within sheets. */
export const fullSheets: readonly string[] = [
	...coverSheets.map(({ href }) => href),
	...sheets.map(({ path }) => `/r/${larkfen}/${path}`),
	`/r/${larkfen}/people/00512`,
	`/r/${larkfen}/schedules/cleaning`,
	`/r/${larkfen}/site?door=drivers`,
	`/r/${larkfen}/holidays?date=2027-07-04`,
	`/r/${larkfen}/retention?on=2026-11-25&template=0`,
	`/r/${larkfen}/retention/orders`,
	`/r/${larkfen}/retention/certificate/00561`,
	`/r/${larkfen}/retention/removal?person=00512`,
	`/r/${larkfen}/requests/person/00307`,
	`/r/${larkfen}/papers/retention-policy`,
	`/r/${larkfen}/papers/notice-draft`,
	`/r/${larkfen}/plan/replan?from=2027-01-11T08:45`,
	`/r/${larkfen}/station-time?class=worn&for=00531`,
	`/r/${larkfen}/plan?date=2027-01-11&booking=0`,
	`/r/${larkfen}/plan/lists`,
	`/r/${larkfen}/plan/slips?who=all`
];

/** Sets the colors of a page before it is opened, and says afterwards that they were used. */
export async function useColors(page: Page, url: string, set: ColorSet): Promise<() => Promise<void>> {
	await page.context().addCookies([{ name: colorSetCookie, value: set, url }]);
	return async () => expect(await page.locator(`[data-set="${set}"]`).count()).toBe(1);
}
