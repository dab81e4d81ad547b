import type { Desk } from './desk';
import { squeezed } from './desk';

/** Sheet E-2: plan and sessions. */
export class PlanPage {
	constructor(readonly desk: Desk) {}

	/** Starts a plan and waits for its proposal. @returns whether progress was shown meanwhile */
	async run(seconds = 2): Promise<boolean> {
		const { page } = this.desk;
		await page.getByLabel('Seconds at most').fill(String(seconds));
		await page.getByRole('button', { name: 'Plan the sessions' }).click();
		const progress = page.getByRole('progressbar', { name: /Planning/ });
		const proposal = page.getByRole('heading', { name: /^Proposal \d+/ });
		await progress.or(proposal).first().waitFor({ timeout: 60_000 });
		const isShown = await progress.isVisible();
		await proposal.waitFor({ timeout: 90_000 });
		return isShown;
	}

	async proposal(): Promise<string> {
		return squeezed(await this.desk.page.locator('#proposal').innerText());
	}

	async adopt(): Promise<void> {
		await this.desk.send(this.desk.page.getByRole('button', { name: 'Adopt these bookings' }));
		await this.desk.page.getByText(/Adopted by change no\./).waitFor();
	}

	/** Names booked on a date, as the timetable shows them. */
	async bookedOn(date: string): Promise<string[]> {
		await this.desk.open('E-2', `?date=${date}`);
		return this.desk.page.locator('.lane a.booking').allInnerTexts();
	}
}
