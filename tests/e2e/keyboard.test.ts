import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk } from './pages/desk';
import { SchedulePage } from './pages/schedule-page';

const rollout = 'larkfen-cold-store';
const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

/** Marks what a pointer can reach and is shown, so that each can be ticked off. Radio buttons count as one per group. */
function markReachable(page: Page): Promise<number> {
	return page.evaluate(() => {
		const selector = 'a[href], button, input:not([type=hidden]), select, textarea, summary';
		const groups = new Set<string>();
		const reachable = [...document.querySelectorAll<HTMLElement | SVGElement>(selector)].filter((element) => {
			if (element.tabIndex < 0 || element.matches(':disabled')) return false;
			if (!element.checkVisibility({ checkVisibilityCSS: true })) return false;
			if (!(element instanceof HTMLInputElement) || element.type !== 'radio') return true;
			const isNew = !groups.has(element.name);
			groups.add(element.name);
			return isNew;
		});
		for (const element of reachable) element.dataset['reach'] = 'open';
		return reachable.length;
	});
}

/** Presses the tab key and gives what then has the focus: its words, and whether the focus can be seen. */
async function tab(page: Page): Promise<{ words: string; isShown: boolean }> {
	await page.keyboard.press('Tab');
	return page.evaluate(() => {
		const element = document.activeElement;
		if (!(element instanceof HTMLElement || element instanceof SVGElement) || element === document.body) {
			return { words: '', isShown: true };
		}
		element.dataset['reach'] = 'reached';
		// In a drawing the focus is drawn on a part of the link: its ground outlined, or its words underlined.
		const parts = element instanceof SVGElement ? [element, ...element.querySelectorAll('*')] : [element];
		// The button inside of a date field is the browser's own, with a ring of its own that styles do not tell.
		const isDate = element instanceof HTMLInputElement && element.type === 'date';
		const isShown =
			isDate ||
			parts.some((part) => {
				const { outlineStyle, outlineWidth, stroke, strokeWidth, textDecorationLine } = getComputedStyle(part);
				if (outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 1) return true;
				if (part instanceof HTMLElement) return false;
				return textDecorationLine === 'underline' || (stroke !== 'none' && Number.parseFloat(strokeWidth) >= 2);
			});
		return {
			words: (element.getAttribute('aria-label') ?? element.textContent).trim() || element.outerHTML.slice(0, 160),
			isShown
		};
	});
}

describe('the tab key', () => {
	it.each(['/', `/r/${rollout}/site`, `/r/${rollout}/schedules/office-hours`, `/r/${rollout}/retention?on=2026-11-25`])(
		'reaches everything on %s, and shows where it is',
		async (address) => {
			const page = await browser.open();
			await new Desk(page, app.url, rollout).visit(address);
			const count = await markReachable(page);
			expect(count).toBeGreaterThan(10);
			const hidden: string[] = [];
			for (let press = 0; press < count + 60; press++) {
				const { words, isShown } = await tab(page);
				if (!isShown) hidden.push(words);
			}
			const missed = await page.evaluate(() =>
				[...document.querySelectorAll('[data-reach=open]')].map((element) => element.outerHTML.slice(0, 160))
			);
			expect(missed).toEqual([]);
			expect(hidden).toEqual([]);
		}
	);

	it('meets the link over the index first, which leads to the sheet', async () => {
		const page = await browser.open();
		await new Desk(page, app.url, rollout).open('A-5');
		expect((await tab(page)).words).toBe('Skip to the sheet');
		await page.keyboard.press('Enter');
		await page.waitForURL(/#sheet$/);
		await page.keyboard.press('Tab');
		const isInside = await page.evaluate(() => document.querySelector('main')?.contains(document.activeElement));
		expect(isInside).toBe(true);
	});
});

describe('the week sheet by keyboard', () => {
	it('adds a stretch, moves it, makes it longer and removes another; what is saved is what was shown', async () => {
		const desk = new Desk(await browser.open(), app.url, rollout);
		const office = new SchedulePage(desk, 'office-hours');
		await office.open();
		expect(await office.typed('Sunday').inputValue()).toBe('');
		await desk.page.getByRole('button', { name: 'Add a stretch on Sunday' }).focus();
		await desk.page.keyboard.press('Enter');
		await desk.page.waitForFunction(() => document.activeElement?.id.includes('-6-'));
		expect(await office.typed('Sunday').inputValue()).toBe('08:00-17:00');
		await desk.page.keyboard.press('ArrowDown');
		await desk.page.keyboard.press('Shift+ArrowDown');
		expect(await office.typed('Sunday').inputValue()).toBe('08:15-17:30');
		await desk.page.keyboard.press('Alt+ArrowUp');
		expect(await office.typed('Sunday').inputValue()).toBe('08:00-17:30');
		expect(await office.save()).toBe(303);
		await office.open();
		expect(await office.typed('Sunday').inputValue()).toBe('08:00-17:30');
	});
});
