import type { Locator } from 'playwright-core';
import { type Desk, squeezed } from './desk';

/** Sheet A-2. */
export class HolidaysPage {
	constructor(readonly desk: Desk) {}

	/** A row of the list of dates, by the name of the holiday. */
	row(name: string): Locator {
		return this.desk.page
			.getByRole('region', { name: 'Dates' })
			.getByRole('row')
			.filter({ has: this.desk.page.getByRole('link', { name, exact: true }) });
	}

	/** The part in which official days are filled in. */
	get fill(): Locator {
		return this.desk.page.getByRole('region', { name: 'Fill in statutory days' });
	}
}

/** Sheet A-4. */
export class WhoPage {
	constructor(readonly desk: Desk) {}

	/** The cell of a row and a column, both by name. */
	async cell(row: string, column: string): Promise<Locator> {
		const table = this.desk.page.getByRole('grid', { name: /^Week of/ });
		const names = (await table.getByRole('columnheader').allInnerTexts()).map(squeezed);
		const rowOf = table.getByRole('row').filter({ has: this.desk.page.getByRole('link', { name: row, exact: true }) });
		return rowOf.getByRole('gridcell').nth(names.indexOf(column) - 1);
	}

	/** Asks about a door, a moment, and a person or everybody. */
	async ask(door: string, at: string, person = ''): Promise<string> {
		const asked = this.desk.page.getByRole('region', { name: 'One door, one moment' });
		await asked.getByRole('combobox', { name: 'Person' }).fill(person);
		await asked.getByLabel('Door', { exact: true }).selectOption({ label: door });
		await asked.getByLabel('Moment').fill(at);
		await this.desk.follow(asked.getByRole('button', { name: 'Ask', exact: true }));
		return squeezed(await asked.innerText());
	}
}
