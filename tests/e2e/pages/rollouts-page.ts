import type { Page } from 'playwright-core';
import { send } from './desk';

/** Sheet 0: the rollouts of this installation. */
export class RolloutsPage {
	constructor(
		readonly page: Page,
		readonly base: string
	) {}

	async open(): Promise<void> {
		await this.page.goto(`${this.base}/`, { waitUntil: 'networkidle' });
	}

	/** The names of the sites, in the order shown. */
	async names(): Promise<string[]> {
		return this.page
			.getByRole('table', { name: /Rollouts on this machine/ })
			.locator('tbody th a')
			.allInnerTexts();
	}

	/** Opens a rollout by the name of its site. @returns its id, from the address */
	async enter(name: string): Promise<string> {
		await this.page.getByRole('link', { name, exact: true }).click();
		await this.page.waitForURL(/\/r\/[^/]+\//);
		return new URL(this.page.url()).pathname.split('/')[2] ?? '';
	}

	/** Starts an empty rollout. @returns its id */
	async start(name: string, timeZone: string, from: string, until: string): Promise<string> {
		await this.page.getByLabel('Name of the site, required').last().fill(name);
		await this.page.getByLabel(/^Time zone/).fill(timeZone);
		await this.page.getByLabel(/^From/).fill(from);
		await this.page.getByLabel(/^Until/).fill(until);
		await this.page.getByRole('button', { name: 'Start', exact: true }).click();
		await this.page.waitForURL(/\/r\/[^/]+\/site/);
		return new URL(this.page.url()).pathname.split('/')[2] ?? '';
	}

	/** Brings a document from a file. @returns the status of the answer to the form */
	async bring(name: string, content: Buffer): Promise<number> {
		const file = { name, mimeType: 'application/json', buffer: content };
		await this.page.getByLabel('Rollout document (JSON)').setInputFiles(file);
		return send(this.page, this.page.getByRole('button', { name: 'Import' }));
	}
}
