import iconv from 'iconv-lite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { violationsOf } from '../support/accessibility';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk, squeezed } from './pages/desk';

const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

const rollout = 'ember-lane-kiln-yard';

/** A list as an office sends it: titles, its own words, a column nobody can know, a row without a number, a total. */
const messy = [
	'Kiln yard, all staff;;;;;',
	'',
	'Staff no.;Surname;Forename;Dept.;Job;Ref.',
	'K01;Achterberg;Rosalind;Studio;Studio lead;01.09.2014',
	'K02;Kettlewell;Idris;Studio;Thrower;06.03.2017',
	'K03;Aldous;Mei-Xing;Kilns;Thrower;13.06.2019',
	'K04;Ravensdale;Tobias;Studio;Glazer;03.02.2020',
	'K05;Farnsworth;Oluchi;Studio;Glazer;04.10.2021',
	'K06;Brzoza;Kasia;Studio;Mold maker;09.05.2022',
	'K07;Marlpit;Gethin;Kilns;Kiln lead;09.01.2012',
	'K08;Haverkamp;Dunya;Kilns;Firer;05.11.2018',
	'K09;Ostrowick;Callum;Kilns;Firer;03.04.2023',
	'K10;Nandakumar;Beatrix;Shop;Shopkeeper;04.07.2016',
	'K11;Tollemarch;Fergus;Shop;Packer;05.08.2024',
	'K12;Wendover;Saoirse;Office;Manager;02.05.2011',
	';Sørensen;Zoë;Studio;Thrower;01.02.2027',
	'Total;;13;;;',
	''
].join('\r\n');

describe('a staff list', () => {
	it('that is messy is corrected, mended in place, applied as a whole, and taken back', async () => {
		const desk = new Desk(await browser.open(), app.url, rollout);
		const { page } = desk;
		await desk.open('P-2');
		const file = { name: 'staff.csv', mimeType: 'text/csv', buffer: iconv.encode(messy, 'windows-1252') };
		await page.getByLabel('Staff list').setInputFiles(file);
		expect(await desk.send(page.getByRole('button', { name: 'Read it' }))).toBe(303);
		const section = page.getByRole('region', { name: 'Columns recognized' });
		expect(squeezed(await section.innerText())).toContain('Encoding windows-1252, cells separated by semicolon');
		const problems = page.getByRole('table', { name: /Problems/ });
		expect(await problems.innerText()).toMatch(/16\s+Staff no\.\s+This row has no id/);
		expect(await violationsOf(page)).toEqual([]);

		await page.getByLabel('Take Ref. for').selectOption('startsOn');
		expect(await desk.send(page.getByRole('button', { name: 'Read again', exact: true }))).toBe(303);
		expect(await section.getByRole('row', { name: /^Ref\./ }).innerText()).toContain('100 %');

		await page.getByLabel('Staff no. in row 16 shall be').fill('K14');
		expect(await desk.send(page.getByRole('button', { name: 'Mend and read again' }))).toBe(303);
		expect(await page.getByText('Mended here: row 16, Staff no.: K14.').count()).toBe(1);
		const changes = page.getByRole('region', { name: 'What it would change' });
		expect(squeezed(await changes.innerText())).toContain(
			'1 join, 1 change, 0 are no longer listed, 11 stay as they are.'
		);
		expect(await page.getByRole('table', { name: /^Join/ }).innerText()).toContain('Zoë Sørensen');
		// Who changes to another department loses or gains doors by it: that is told before it is done.
		expect(await page.getByRole('table', { name: /what would follow/ }).innerText()).toContain('Mei-Xing Aldous');

		expect(await desk.send(page.getByRole('button', { name: /^Apply to 2 people/ }))).toBe(303);
		expect(await desk.heading()).toContain('P-1');
		expect(await page.getByText('Zoë Sørensen').count()).toBeGreaterThan(0);
		await desk.takeBack();
		await desk.open('P-1');
		expect(await page.getByText('Zoë Sørensen').count()).toBe(0);
	});

	it('with the half of the people missing, pasted from a spreadsheet, is taken only when asked for twice', async () => {
		const desk = new Desk(await browser.open(), app.url, rollout);
		const { page } = desk;
		await desk.open('P-2');
		const half = messy
			.split('\r\n')
			.slice(2, 7)
			.map((line) => line.replaceAll(';', '\t'))
			.join('\n');
		await page.getByLabel('Or a range pasted from a spreadsheet').fill(half);
		expect(await desk.send(page.getByRole('button', { name: 'Read the range' }))).toBe(303);
		expect(await page.getByRole('heading', { name: 'No longer listed' }).count()).toBe(1);
		await page.getByLabel(/^Enter a last day for the 8 people/).check();
		await page.getByRole('textbox', { name: 'Last day' }).fill('2027-01-31');
		// Without the second tick nothing is sent.
		await page.getByRole('button', { name: /^Apply to/ }).click();
		expect(await page.getByText('Half of the people or more are missing in this file.').isVisible()).toBe(true);
		await page.getByLabel('This is the whole list').check();
		expect(await desk.send(page.getByRole('button', { name: /^Apply to/ }))).toBe(303);
		await desk.open('P-1', '/K12');
		expect(await page.locator('[name="leavesOn"]').inputValue()).toBe('2027-01-31');
		await desk.takeBack();
	});
});
