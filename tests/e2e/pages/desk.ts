import type { Locator, Page, Response } from 'playwright-core';
import { type SheetCode, sheetHref, sheets } from '../../../src/lib/components/sheet/sheets';

/** What stands around every sheet of one rollout: how to get to a sheet, and what the index and the title block say. */
export class Desk {
	constructor(
		readonly page: Page,
		readonly base: string,
		readonly rollout: string
	) {}

	/** Goes to a sheet by its code; `below` follows its path, as in `?door=main` or `/office`. Throws when it is refused. */
	async open(code: SheetCode, below = ''): Promise<void> {
		const { path } = sheets.find((sheet) => sheet.code === code) ?? {};
		if (path === undefined) throw new Error(`there is no sheet ${code}`);
		await this.visit(sheetHref(this.rollout, path) + below);
	}

	/** Goes to an address of the app and waits until its scripts are at work. */
	async visit(address: string): Promise<Response> {
		const response = await this.page.goto(this.base + address, { waitUntil: 'networkidle' });
		if (!response?.ok()) throw new Error(`${address} answers ${response?.status() ?? 'nothing'}`);
		return response;
	}

	/** The heading of the sheet shown: its code and its name. */
	async heading(): Promise<string> {
		return squeezed(await this.page.getByRole('heading', { level: 1 }).innerText());
	}

	/** What the title block says under a word, such as `Revision`. */
	async titleBlock(word: string): Promise<string> {
		const field = this.page.locator('dl[aria-label="Title block"] > div', {
			has: this.page.getByText(word, { exact: true })
		});
		return squeezed(await field.locator('dd').innerText());
	}

	/** Follows a link and waits until the page that it leads to is there. */
	async follow(link: Locator): Promise<void> {
		const before = this.page.url();
		await link.click();
		await this.page.waitForURL((url) => url.href !== before, { waitUntil: 'networkidle' });
	}

	/** Sends a form by its button and waits for the page that follows. @returns the status of the answer to the form */
	async send(button: Locator): Promise<number> {
		return send(this.page, button);
	}

	/** Takes the last change back by the button below the index. */
	async takeBack(): Promise<void> {
		await this.send(this.page.getByRole('form', { name: 'Take back' }).getByRole('button', { name: 'Take back' }));
	}
}

/** Text with single spaces. */
export function squeezed(text: string): string {
	return text.replaceAll(/\s+/g, ' ').trim();
}

/** Sends a plain form by its button and waits for the page that follows. @returns the status of the answer to the form */
export async function send(page: Page, button: Locator): Promise<number> {
	const answered = page.waitForResponse((response) => response.request().method() === 'POST');
	const loaded = page.waitForEvent('load');
	await button.click();
	const response = await answered;
	await loaded;
	await page.waitForLoadState('networkidle');
	return response.status();
}
