import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

/**
 * What axe-core holds against a page by the rules of WCAG 2.2 AA, one line per element: rule, element, and what to do.
 * @source W3C, Web Content Accessibility Guidelines 2.2, levels A and AA, as far as axe-core can judge by itself
 */
export async function violationsOf(page: Page): Promise<string[]> {
	const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
	const { violations, passes } = await new AxeBuilder({ page }).withTags(tags).analyze();
	// An empty page has no violation either.
	if (passes.length < 10) throw new Error(`axe-core found only ${passes.length} rules to judge on ${page.url()}`);
	return violations.flatMap(({ id, nodes }) =>
		nodes.map(({ target, html, failureSummary }) =>
			[id, JSON.stringify(target), html.slice(0, 200), failureSummary?.replaceAll(/\s+/g, ' ') ?? ''].join(' | ')
		)
	);
}
