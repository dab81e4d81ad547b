import { readFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import ICAL from 'ical.js';
import type { Download } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk, squeezed } from './pages/desk';
import { PlanPage } from './pages/plan-page';
import { RolloutsPage } from './pages/rollouts-page';
import { SchedulePage } from './pages/schedule-page';

// The tutorial of README.md, from an empty data folder to files on the desk: the way of a site admin. The steps build
// upon each other, as they do for a person; each test is one of them.

const tutorial = 'Ember Lane Kiln Yard';
const browser = useBrowser();
let app: RunningApp;
let dataFolder = '';
let id = '';
beforeAll(async () => {
	dataFolder = await mkdtemp(path.join(tmpdir(), 'doorwright-'));
	app = await startApp({ dataFolder });
});
afterAll(async () => {
	await app.stop();
	await rm(dataFolder, { recursive: true, force: true });
});

async function enter(): Promise<Desk> {
	return new Desk(await browser.open({ acceptDownloads: true }), app.url, id);
}

async function contentOf(download: Download): Promise<string> {
	return readFileSync(await download.path(), 'utf8');
}

describe('the whole way', () => {
	it('begins with the two invented sites on an empty data folder', async () => {
		const page = await browser.open();
		const rollouts = new RolloutsPage(page, app.url);
		await rollouts.open();
		expect((await rollouts.names()).sort()).toEqual([tutorial, 'Larkfen Cold Store']);
		id = await rollouts.enter(tutorial);
		expect(await new Desk(page, app.url, id).titleBlock('Site')).toBe(tutorial);
	});

	it('takes the roster over: one joins, one is moved, and nothing before it is confirmed', async () => {
		const desk = await enter();
		await desk.open('P-2');
		const revision = await desk.titleBlock('Revision');
		await desk.page.locator('input[type=file]').first().setInputFiles('demo-data/tutorial-kiln-yard-roster.csv');
		await desk.send(desk.page.getByRole('button', { name: 'Read it' }));
		const proposed = squeezed(await desk.page.locator('main').innerText());
		expect(proposed).toContain('13 people, 0 problems');
		expect(proposed).toContain('1 join, 1 change, 0 are no longer listed, 11 stay as they are.');
		expect(proposed).toContain('Anneliese Pottinger');
		expect(await desk.titleBlock('Revision')).toBe(revision);
		expect(await desk.send(desk.page.getByRole('button', { name: 'Apply to 2 people' }))).toBe(303);
		await desk.open('P-1');
		expect(await desk.titleBlock('Revision')).not.toBe(revision);
		await desk.page.getByRole('link', { name: 'Anneliese Pottinger' }).waitFor();
		await desk.open('P-1', '/K06');
		expect(squeezed(await desk.page.locator('.lead').innerText())).toContain('Glazer');
	});

	it('leads from a finding to the person locked out, and it is gone once the schedule opens earlier', async () => {
		const desk = await enter();
		await desk.open('A-5');
		const finding = desk.page.getByRole('link', { name: /Dunya Haverkamp/ });
		await desk.follow(finding);
		expect(await desk.heading()).toBe('P-1 Dunya Haverkamp');
		const firing = new SchedulePage(desk, 'firing');
		await firing.open();
		const days = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday'];
		await firing.type(Object.fromEntries(days.map((day) => [day, '05:30-22:30'])));
		await firing.save();
		await firing.open();
		expect(await firing.typed('Friday').inputValue()).toBe('05:30-22:30');
		await desk.open('A-5');
		expect(await finding.count()).toBe(0);
		await desk.page.getByText('No error', { exact: true }).waitFor();
	});

	it('adds the bank holiday that was forgotten, and nothing is found any more', async () => {
		const desk = await enter();
		await desk.open('A-5');
		await desk.follow(desk.page.getByRole('link', { name: /2027-08-30|30 August 2027|August 30, 2027/ }));
		expect(await desk.heading()).toBe('A-2 Holidays');
		const form = desk.page.locator('form[action*="putDay"]');
		await form.getByLabel(/^Date/).fill('2027-08-30');
		await form.getByLabel('Name', { exact: true }).fill('Summer bank holiday');
		await form.getByLabel(/^Kind/).fill('public');
		expect(await desk.send(form.getByRole('button', { name: 'Add' }))).toBe(303);
		await desk.open('A-5');
		await desk.page.getByText(/^\s*Nothing found/).waitFor();
	});

	it('plans with progress, says who is left out, and keeps the bookings once they are adopted', async () => {
		const desk = await enter();
		const plan = new PlanPage(desk);
		await desk.open('E-2');
		await plan.run();
		const proposal = await plan.proposal();
		expect(proposal).toMatch(/12 people booked in \d+ sessions; 1 not booked/);
		expect(proposal).toContain('Callum Ostrowick');
		await plan.adopt();
		const booked = [...(await plan.bookedOn('2027-02-23')), ...(await plan.bookedOn('2027-02-24'))].map(squeezed);
		expect(booked).toHaveLength(12);
		expect(booked.some((text) => text.includes('Anneliese Pottinger'))).toBe(true);
		expect(booked.some((text) => text.includes('Callum'))).toBe(false);
	});

	it('saves the document, lists and a calendar that another program reads', async () => {
		const desk = await enter();
		await desk.open('G-1');
		const save = async (name: RegExp): Promise<string> => {
			const [download] = await Promise.all([
				desk.page.waitForEvent('download'),
				desk.page.getByRole('link', { name }).click()
			]);
			return contentOf(download);
		};
		const document = JSON.parse(await save(/^Save rollout\.json/)) as {
			people: { id: string }[];
			enrollment: { bookings: { person: string; start: string; minutes: number }[] };
		};
		expect(document.people).toHaveLength(13);
		const { bookings } = document.enrollment;
		expect(bookings).toHaveLength(12);
		const rows = (await save(/^Save CSV of Bookings/)).trim().split(/\r?\n/);
		expect(rows).toHaveLength(13);
		expect(rows.some((row) => row.includes('K13') && row.includes('Anneliese Pottinger'))).toBe(true);

		const calendar = new ICAL.Component(ICAL.parse(await save(/^Save station-desk\.ics/)) as never[]);
		const events = calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
		// February in London is on UTC, so that the wall-clock time of a booking is its instant.
		expect(events.map(({ startDate }) => startDate.toString().slice(0, 16)).sort()).toEqual(
			bookings.map(({ start }) => start.slice(0, 16)).sort()
		);
		expect(events.map(({ duration }) => duration.toSeconds() / 60).sort()).toEqual(
			bookings.map(({ minutes }) => minutes).sort()
		);
	});

	it('takes back the last change, tells so in the record, and can do it again', async () => {
		const desk = await enter();
		await desk.open('E-2');
		await desk.takeBack();
		expect(await new PlanPage(desk).bookedOn('2027-02-23')).toEqual([]);
		await desk.open('G-2');
		const table = desk.page.getByRole('table', { name: /Changes/ });
		expect(squeezed(await table.innerText())).toContain('taken back by no.');
		await desk.send(desk.page.getByRole('button', { name: 'Do again' }));
		expect(await new PlanPage(desk).bookedOn('2027-02-23')).not.toEqual([]);
	});

	it('keeps it all when the server is ended and started again', async () => {
		expect(await app.stop()).toBe(0);
		app = await startApp({ dataFolder });
		const response = await fetch(`${app.url}/api/v1/rollouts/${id}`);
		const { enrollment } = (await response.json()) as { enrollment: { bookings: unknown[] } };
		expect(enrollment.bookings).toHaveLength(12);
	});
});
