import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { violationsOf } from '../support/accessibility';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { HolidaysPage, WhoPage } from './pages/access-pages';
import { Desk } from './pages/desk';
import { SchedulePage } from './pages/schedule-page';

const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

const deskOf = async (options: Parameters<typeof browser.open>[0] = {}) =>
	new Desk(await browser.open(options), app.url, 'larkfen-cold-store');

describe('schedules', () => {
	it('a finding about a schedule is gone once the holiday is decided', async () => {
		const desk = await deskOf();
		const { page } = desk;
		await desk.open('A-1');
		await desk.follow(
			page
				.getByRole('row', { name: /17:00–23:30/ })
				.getByRole('link', { name: 'Cleaning' })
				.first()
		);
		await page.getByText('Holiday not decided', { exact: true }).waitFor();
		await page.getByLabel('Cleaning on half-day holidays', { exact: true }).selectOption({ label: 'hours of its own' });
		await page.getByLabel('Hours of Cleaning on half-day holidays').fill('17-20');
		expect(await new SchedulePage(desk, 'cleaning').save()).toBe(303);
		expect(await page.getByText('Holiday not decided', { exact: true }).count()).toBe(0);
		expect(await page.getByLabel('Hours of Cleaning on half-day holidays').inputValue()).toBe('17:00-20:00');
		await desk.takeBack();
		await desk.open('A-1', '/cleaning');
		expect(await page.getByText('Holiday not decided', { exact: true }).count()).toBe(1);
	});

	it('what cannot be read is refused at its place, and stays as it was typed', async () => {
		const desk = await deskOf({ expectedTroubles: [/status of 422/] });
		const office = new SchedulePage(desk, 'office-hours');
		await office.open();
		const revision = await desk.titleBlock('Revision');
		await office.type({ Monday: '07:00-19:00, soon' });
		await desk.page.getByLabel('Valid from').fill('2027-05-01');
		expect(await office.save()).toBe(422);
		expect(await office.typed('Monday').inputValue()).toBe('07:00-19:00, soon');
		expect(await office.typed('Monday').getAttribute('aria-invalid')).toBe('true');
		expect(await desk.page.getByLabel('Valid from').inputValue()).toBe('2027-05-01');
		expect(await desk.titleBlock('Revision')).toBe(revision);
		expect(await violationsOf(desk.page)).toEqual([]);
	});

	it('one is made, renamed, copied and deleted; one that is used is kept, and its users are told', async () => {
		const desk = await deskOf({ expectedTroubles: [/status of 422/] });
		const { page } = desk;
		await desk.open('A-1');
		await page.getByLabel('Id, required').fill('visitors');
		await page.getByLabel('Begin with').selectOption({ label: 'the hours of Office hours' });
		expect(await desk.send(page.getByRole('button', { name: 'Add and set its hours' }))).toBe(303);
		expect(await desk.heading()).toBe('A-1 Schedule visitors');
		const form = page.locator('#schedule');
		await form.getByLabel('Id, required').fill('guests / 1');
		await form.getByLabel('Name').fill('Guests');
		expect(await new SchedulePage(desk, 'visitors').save()).toBe(303);
		expect(await desk.heading()).toBe('A-1 Schedule Guests');
		expect(await new SchedulePage(desk, '').typed('Tuesday').inputValue()).toBe('06:30-19:00');
		await page.getByText('Delete this schedule').click();
		expect(await desk.send(page.getByRole('button', { name: 'Delete', exact: true }))).toBe(303);
		expect(await page.getByRole('link', { name: 'Guests' }).count()).toBe(0);

		await desk.open('A-1', '/office-hours');
		await page.getByText('Delete this schedule').click();
		expect(await desk.send(page.getByRole('button', { name: 'Delete', exact: true }))).not.toBe(303);
		expect(await page.getByRole('alert').innerText()).toContain('is used by access profile office');
	});
});

describe('holidays', () => {
	it('official days are filled in with the kind that fits, and the list is then complete', async () => {
		const desk = await deskOf();
		const holidays = new HolidaysPage(desk);
		await desk.open('A-2');
		expect(await holidays.fill.innerText()).toContain('date-holidays');
		await holidays.fill.getByLabel(/^Add 2027-06-19/).uncheck();
		await holidays.fill.getByLabel(/^Kind of 2027-12-31/).fill('worked');
		expect(await desk.send(holidays.fill.getByRole('button', { name: 'Add the ticked days' }))).toBe(303);
		expect(await holidays.row('Christmas Day').innerText()).toContain('public');
		expect(await holidays.fill.getByLabel(/^Add /).count()).toBe(1);
		expect(await desk.page.getByLabel('Complete up to', { exact: true }).inputValue()).toBe('2027-12-31');
	});

	it('a date that is listed twice is shown, and one of the two can be taken away', async () => {
		const desk = await deskOf();
		const holidays = new HolidaysPage(desk);
		await desk.open('A-2', '?date=2027-05-31');
		expect(await holidays.row('Memorial Day').innerText()).toContain('this entry counts');
		await desk.follow(holidays.row('Memorial Day (paid)').getByRole('link'));
		await desk.page.getByText('Remove 2027-05-31').click();
		expect(await desk.send(desk.page.getByRole('button', { name: 'Remove', exact: true }))).toBe(303);
		expect(await holidays.row('Memorial Day (paid)').count()).toBe(0);
		expect(await holidays.row('Memorial Day').innerText()).not.toContain('counts');
	});

	it('an entry that somebody else changed meanwhile is not overwritten', async () => {
		const [one, other] = [await deskOf(), await deskOf({ expectedTroubles: [/status of 409/] })];
		for (const desk of [one, other]) await desk.open('A-2', '?date=2027-10-11');
		await one.page.getByLabel('Kind, required').fill('public');
		expect(await one.send(one.page.getByRole('button', { name: 'Save', exact: true }).first())).toBe(303);
		await other.page.getByLabel('Kind, required').fill('shutdown');
		await other.page.getByLabel('Kind, required').press('Enter');
		await other.page.getByRole('alert').waitFor();
		expect(await new HolidaysPage(other).row('Columbus Day').innerText()).toContain('public');
	});
});

describe('profiles and assignments', () => {
	it('access is given to a department, told with its number of people, and taken away', async () => {
		const desk = await deskOf({ expectedTroubles: [/status of 422/] });
		const { page } = desk;
		await desk.open('A-3');
		const profiles = page.getByRole('region', { name: 'Access profiles' });
		await profiles.getByLabel('Id, required').fill('gallery');
		await profiles.getByLabel('Door group of row 1').selectOption({ label: 'Gallery' });
		await profiles.getByLabel('Schedule of row 1').selectOption({ label: 'Office hours' });
		expect(await desk.send(profiles.getByRole('button', { name: 'Add', exact: true }))).toBe(303);

		const assignments = page.getByRole('region', { name: 'Assignments' });
		await assignments.getByRole('checkbox', { name: /^Cleaning/ }).check();
		await assignments.getByLabel('Id, required').fill('a-gallery');
		await assignments.getByLabel('From').fill('2027-03-01');
		await assignments.getByLabel('Until').fill('2027-02-01');
		await assignments.getByLabel('Access profile, required').selectOption({ label: 'gallery' });
		expect(await desk.send(assignments.getByRole('button', { name: 'Add', exact: true }))).toBe(422);
		// Refused for its dates; what was ticked and typed is still there.
		expect(await assignments.getByRole('checkbox', { name: /^Cleaning/ }).isChecked()).toBe(true);
		await assignments.getByLabel('Until').fill('');
		expect(await desk.send(assignments.getByRole('button', { name: 'Add', exact: true }))).toBe(303);
		expect(await assignments.innerText()).toContain('Matches 10 people');
		expect(await violationsOf(page)).toEqual([]);
		await assignments.locator('summary', { hasText: 'Remove' }).click();
		expect(await desk.send(assignments.getByRole('button', { name: 'Remove', exact: true }))).toBe(303);
		expect(await assignments.getByRole('link', { name: 'a-gallery' }).count()).toBe(0);
	});
});

describe('who can open what', () => {
	it('a cell tells its reason, from the assignment to the hours', async () => {
		const desk = await deskOf();
		const who = new WhoPage(desk);
		await desk.open('A-4', '?week=2027-02-15');
		await desk.follow((await who.cell('Packing', 'Floor')).getByRole('link'));
		const reason = desk.page.locator('#reason');
		expect(await reason.innerText()).toMatch(/44 people, 3 doors: Mon–Sat 05:30–22:30/);
		expect(await reason.innerText()).toMatch(/a-packing .* gives 44 people the profile Floor, early and late/);
		expect(await reason.innerText()).toContain('2027-02-15, Washington’s Birthday (worked): as on an ordinary day');
		expect(await reason.locator('svg path').count()).toBeGreaterThan(0);
		expect(await violationsOf(desk.page)).toEqual([]);
	});

	it('a department leads to its people, a person and a door to a moment', async () => {
		const desk = await deskOf();
		const who = new WhoPage(desk);
		await desk.open('A-4', '?columns=doors&week=2027-02-15');
		await desk.follow(desk.page.getByRole('link', { name: 'Cleaning', exact: true }));
		expect(
			await desk.page
				.getByRole('grid', { name: /^Week of/ })
				.getByRole('row')
				.count()
		).toBe(11);
		const [first] = await desk.page.getByRole('rowheader').getByRole('link').allInnerTexts();
		await desk.follow((await who.cell(String(first), 'Front entrance')).getByRole('link'));
		await desk.follow(desk.page.getByRole('link', { name: /^Ask about one moment/ }));
		expect(await desk.page.getByRole('region', { name: 'One door, one moment' }).innerText()).toContain(
			`may open Front entrance on Mon 15 February 2027 at 17:00`
		);
	});

	it('tells who may open a door at a moment, and why one may not', async () => {
		const desk = await deskOf();
		const who = new WhoPage(desk);
		await desk.open('A-4');
		expect(await who.ask('Cold room 1 from the dock', '2027-02-03T05:45')).toMatch(/\d+ people may open Cold room 1/);
		expect(await violationsOf(desk.page)).toEqual([]);
		const text = await who.ask('Front entrance', '2027-02-03T05:45', '00106');
		expect(text).toContain('may not open Front entrance');
		expect(text).toContain('without Front entrance; door group Front of house holds it, given by Office and Cleaning');
		expect(await violationsOf(desk.page)).toEqual([]);
		expect(await who.ask('Staff entrance', '2027-02-03T12:00', '00106')).toContain('Way from outside: Staff entrance.');
		expect(await who.ask('Staff entrance', '2027-02-03T12:00', 'Nobody At All')).toContain(
			'nobody called Nobody At All'
		);
	});

	it('answers without script as well', async () => {
		const desk = await deskOf({ javaScriptEnabled: false });
		const who = new WhoPage(desk);
		await desk.open('A-4', '?week=2027-02-15');
		await (await who.cell('Packing', 'Floor')).getByRole('link').click();
		await desk.page.locator('#reason').waitFor();
		expect(await desk.page.locator('#reason').innerText()).toContain('a-packing');
	});
});
