import ICAL from 'ical.js';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk, squeezed } from './pages/desk';

const rollout = 'larkfen-cold-store';
const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

/** Itzel Cantú of the demo, who is booked for 08:40 on the first date and can come at 09:15 as well. */
const who = { id: '00531', name: 'Itzel Cantú' };

/** The event of a calendar file that a link or address of the app gives. */
async function calendarAt(page: Page, href: string) {
	const answer = await page.request.get(new URL(href, app.url).href);
	if (!answer.ok()) throw new Error(`${href} answers ${answer.status()}`);
	const calendar = new ICAL.Component(ICAL.parse(await answer.text()) as unknown[]);
	const event = new ICAL.Event(calendar.getFirstSubcomponent('vevent') as ICAL.Component);
	const method = calendar.getFirstPropertyValue('method');
	return { uid: event.uid, sequence: event.sequence, start: event.startDate.toString(), method };
}

it('prints lists and slips, and hands out calendars that follow a booking that is moved and freed', async () => {
	const page = await browser.open();
	const desk = new Desk(page, app.url, rollout);
	await desk.open('E-2');
	await desk.follow(page.getByRole('link', { name: 'Session lists' }));
	const row = page.getByRole('row').filter({ hasText: who.name });
	expect(squeezed(await row.innerText())).toMatch(/^08:40–08:48 Itzel Cantú 00531 Office Standard, 8 min Given/);
	await page.emulateMedia({ media: 'print' });
	expect(await page.getByText('Personal data').isVisible()).toBe(true);
	expect(await page.getByRole('form', { name: 'Which sessions' }).isVisible()).toBe(false);
	await page.emulateMedia({ media: 'screen' });

	await desk.follow(page.getByRole('link', { name: 'Invitation slips' }));
	await page.getByLabel('Contact', { exact: true }).fill('Ask at the lobby');
	await page.getByLabel('E-mail of the contact').fill('desk@larkfen.example');
	expect(await desk.send(page.getByRole('button', { name: 'Save these words' }))).toBe(303);
	const slip = page.getByRole('region', { name: who.name });
	const text = squeezed(await slip.innerText());
	for (const words of ['Monday, January 11, 2027', '8:40', 'Training room', 'voluntary', 'Ask at the lobby']) {
		expect(text).toContain(words);
	}
	const href = (await slip.getByRole('link', { name: /Calendar file/ }).getAttribute('href')) ?? '';
	const first = await calendarAt(page, href);
	expect(first).toMatchObject({ sequence: 0, start: '2027-01-11T08:40:00', method: 'REQUEST' });
	expect(await desk.send(page.getByRole('button', { name: /^Mark these 4 as told/ }))).toBe(303);
	expect(await slip.count()).toBe(0);

	// Moved by the form of the plan.
	await desk.open('E-2', '?date=2027-01-11');
	await desk.follow(page.locator('.lane a.booking', { hasText: who.name }));
	await page.locator('#booking input[name="time"]').fill('09:15');
	expect(await desk.send(page.locator('#booking').getByRole('button', { name: 'Save' }))).toBe(303);
	await desk.open('E-2', '/slips');
	expect(squeezed(await slip.innerText())).toContain('This replaces the appointment that you were told of before');
	expect(await calendarAt(page, href)).toEqual({ ...first, sequence: 1, start: '2027-01-11T09:15:00' });

	// Freed: the calendar is gone, and another file takes the appointment out of calendars.
	const headers = { 'content-type': 'application/json' };
	const document = await (await page.request.get(`${app.url}/api/v1/rollouts/${rollout}`)).text();
	const { enrollment } = JSON.parse(document) as { enrollment: { bookings: { person: string }[] } };
	const bookings = enrollment.bookings.filter(({ person }) => person !== who.id);
	const at = `${app.url}/api/v1/rollouts/${rollout}/edits/set-bookings`;
	expect((await page.request.post(at, { headers, data: { bookings } })).ok()).toBe(true);
	const gone = await calendarAt(page, href.replace('.ics', '-withdrawn.ics'));
	expect(gone).toMatchObject({ uid: first.uid, sequence: 2, method: 'CANCEL' });
	await desk.open('E-2', '/slips?who=all');
	expect(await slip.count()).toBe(0);
	await page.getByText('Calendar files (iCalendar)').click();
	expect(squeezed(await page.getByRole('list').filter({ hasText: 'withdrawn' }).innerText())).toContain('1 withdrawn');
});
