import { chromium, type Browser, type BrowserContext, type BrowserContextOptions, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll } from 'vitest';
import { browserPath } from '../../src/tools/browser.mjs';

export interface PageOptions extends BrowserContextOptions {
	/**
	 * Troubles that the test brings about on purpose, as in `[/status of 413/]`: the browser writes a console error for
	 * every refused request. Each must really occur.
	 */
	readonly expectedTroubles?: readonly RegExp[];
}

export interface TestBrowser {
	/** A page with nothing remembered from other pages. It is closed after the test. */
	open(options?: PageOptions): Promise<Page>;
}

interface Watched {
	readonly context: BrowserContext;
	readonly expected: readonly RegExp[];
	readonly troubles: string[];
}

/**
 * One browser for the tests of a file; call it at the top of the file or of a `describe`. A test fails when any page it
 * opened wrote a console error or warning, threw, or asked another machine for anything.
 */
export function useBrowser(): TestBrowser {
	let browser: Browser | undefined;
	let watched: Watched[] = [];

	beforeAll(async () => {
		browser = await chromium.launch({ executablePath: browserPath() });
	});
	afterAll(() => browser?.close());
	afterEach(async () => {
		const all = watched;
		watched = [];
		for (const { context } of all) await context.close();
		const reports = all.flatMap(reportOf);
		if (reports.length > 0) throw new Error(`in the browser:\n${reports.join('\n')}`);
	});

	return {
		async open({ expectedTroubles = [], ...options } = {}) {
			if (browser === undefined) throw new Error('open pages inside of a test');
			// Enough for a desk; tests of small screens and of print say their own.
			const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, locale: 'en-US', ...options });
			const entry: Watched = { context, expected: expectedTroubles, troubles: [] };
			watched.push(entry);
			watch(context, entry.troubles);
			return context.newPage();
		}
	};
}

function watch(context: BrowserContext, troubles: string[]): void {
	context.on('console', (message) => {
		const kind = message.type();
		if (kind === 'error' || kind === 'warning') troubles.push(`console ${kind}: ${message.text()}`);
	});
	context.on('weberror', (error) => troubles.push(`thrown: ${error.error().stack ?? error.error().message}`));
	context.on('request', (request) => {
		const { protocol, hostname } = new URL(request.url());
		const isOwn =
			hostname === '127.0.0.1' || hostname === 'localhost' || ['data:', 'blob:', 'about:'].includes(protocol);
		if (!isOwn) troubles.push(`asked another machine: ${request.url()}`);
	});
}

function reportOf({ expected, troubles }: Watched): string[] {
	const unexpected = troubles.filter((trouble) => !expected.some((pattern) => pattern.test(trouble)));
	const missing = expected.filter((pattern) => !troubles.some((trouble) => pattern.test(trouble)));
	return [...unexpected, ...missing.map((pattern) => `did not occur, though expected: ${String(pattern)}`)];
}
