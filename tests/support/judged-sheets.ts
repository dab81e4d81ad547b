import { describe, expect, it } from 'vitest';
import { Desk } from '../e2e/pages/desk';
import { violationsOf } from './accessibility';
import type { TestBrowser } from './browser';
import { larkfen, useColors } from './full-sheets';
import type { RunningApp } from './server';

/**
 * Judges each address once loaded: every rule of WCAG 2.2 AA that axe-core knows on paper, contrast again in the blueprint
 * set, and the width on a narrow screen. One visit for all three, since loading is most of the time.
 */
export function judgeSheets(addresses: readonly string[], browser: TestBrowser, app: () => RunningApp): void {
	describe.each(addresses)('%s', (address) => {
		it('has no violation of WCAG 2.2 AA, contrast enough in both color sets, and fits a narrow screen', async () => {
			const page = await browser.open();
			const areUsed = await useColors(page, app().url, 'light');
			await new Desk(page, app().url, larkfen).visit(address);
			await areUsed();
			expect(await violationsOf(page)).toEqual([]);

			await page.evaluate(() => {
				document.querySelector('[data-set="light"]')?.setAttribute('data-set', 'blueprint');
				// Colors of buttons fade from one set to the other; what is judged is where they end.
				for (const fading of document.getAnimations()) if (fading instanceof CSSTransition) fading.finish();
			});
			expect(await violationsOf(page, { colorsOnly: true })).toEqual([]);

			// WCAG 2.2, 1.4.10: no scrolling in two directions at a width of 320 CSS pixels, as at 400 % zoom.
			await page.setViewportSize({ width: 320, height: 640 });
			const { scrolled, shown } = await page.evaluate(() => ({
				scrolled: document.documentElement.scrollWidth,
				shown: document.documentElement.clientWidth
			}));
			expect(scrolled).toBeLessThanOrEqual(shown);
		});
	});
}
