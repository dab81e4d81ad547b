import type { Desk } from './desk';

/** Below sheet A-1: one schedule. */
export class SchedulePage {
	constructor(
		readonly desk: Desk,
		readonly schedule: string
	) {}

	async open(): Promise<void> {
		await this.desk.open('A-1', `/${encodeURIComponent(this.schedule)}`);
	}

	/** Types the stretches of days, as in `{ Monday: '05:30-22:30' }`. */
	async type(week: Readonly<Record<string, string>>): Promise<void> {
		for (const [day, stretches] of Object.entries(week)) {
			await this.typed(day).fill(stretches);
		}
	}

	typed(day: string) {
		return this.desk.page.getByRole('group', { name: 'The same, typed' }).getByLabel(day, { exact: true });
	}

	/** @returns the status of the answer to the form */
	async save(): Promise<number> {
		return this.desk.send(this.desk.page.getByRole('button', { name: 'Save schedule' }));
	}
}
