import type { Page, Response } from 'playwright-core';
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

	/** Takes the last change back by the button below the index. */
	async takeBack(): Promise<void> {
		await this.page.getByRole('form', { name: 'Take back' }).getByRole('button', { name: 'Take back' }).click();
		await this.settle();
	}

	/** Waits until the page that a form or link led to is there. */
	async settle(): Promise<void> {
		await this.page.waitForLoadState('networkidle');
	}
}

/** Text with single spaces. */
export function squeezed(text: string): string {
	return text.replaceAll(/\s+/g, ' ').trim();
}
