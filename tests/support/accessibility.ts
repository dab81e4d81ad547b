import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

export interface Judged {
	/** Only what depends on colors: the rest of a page in another color set is the same. */
	readonly colorsOnly?: boolean;
}

/**
 * What axe-core holds against a page by the rules of WCAG 2.2 AA, one line per element: rule, element, and what to do.
 * @source W3C, Web Content Accessibility Guidelines 2.2, levels A and AA, as far as axe-core can judge by itself
 */
export async function violationsOf(page: Page, { colorsOnly = false }: Judged = {}): Promise<string[]> {
	const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
	const axe = new AxeBuilder({ page });
	const { violations, passes } = await (
		colorsOnly ? axe.withRules(['color-contrast', 'link-in-text-block']) : axe.withTags(tags)
	).analyze();
	// An empty page has no violation either.
	const least = colorsOnly ? 1 : 10;
	if (passes.length < least) throw new Error(`axe-core found only ${passes.length} rules to judge on ${page.url()}`);
	return violations.flatMap(({ id, nodes }) =>
		nodes.map(({ target, html, failureSummary }) =>
			[id, JSON.stringify(target), html.slice(0, 200), failureSummary?.replaceAll(/\s+/g, ' ') ?? ''].join(' | ')
		)
	);
}
