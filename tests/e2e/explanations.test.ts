import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { violationsOf } from '../support/accessibility';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk, squeezed } from './pages/desk';

// From a finding to its reason, and from a question in words to its list: as somebody does it who prepares a go-live.

const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

const deskOf = async (options: Parameters<typeof browser.open>[0] = {}) =>
	new Desk(await browser.open(options), app.url, 'larkfen-cold-store');
const answerOf = (desk: Desk) => desk.page.getByRole('region', { name: 'One door, one moment' });

describe('from a finding to the explanation', () => {
	it.each([{}, { javaScriptEnabled: false }])('in one click: person, door and minute, with %o', async (options) => {
		const desk = await deskOf(options);
		await desk.open('A-5');
		const item = desk.page
			.getByRole('region', { name: /Locked out on a holiday/ })
			.getByRole('listitem')
			.first();
		const told = squeezed(await item.innerText());
		await desk.follow(item.getByRole('link', { name: 'Why, at the first moment' }));
		const url = new URL(desk.page.url());
		expect(url.searchParams.get('door')).not.toBeNull();
		expect(told).toContain(`(${url.searchParams.get('person') ?? ''})`);
		// The minute is the first that the finding names.
		const [, from = ''] = /cannot be reached from (\d\d:\d\d)/.exec(told) ?? [];
		expect(url.searchParams.get('at')?.slice(11)).toBe(from);
		const answer = answerOf(desk);
		expect(squeezed(await answer.innerText())).toContain('may not open');
		const chain = answer.getByRole('list', { name: 'From the person to the door, way 1' });
		expect(await chain.getByRole('listitem').count()).toBe(7);
		expect(await chain.getByRole('strong').count()).toBeGreaterThan(0);
		if (options.javaScriptEnabled !== false) expect(await violationsOf(desk.page)).toEqual([]);
		// Each link is edited where it leads to.
		await desk.follow(chain.getByRole('link').nth(4));
		expect(await desk.heading()).toMatch(/^A-1 Schedule /);
	});

	it('the next yes leads to a yes', async () => {
		const desk = await deskOf();
		await desk.open('A-4', '?person=00106&door=cold-1&at=2027-06-08T02:30');
		expect(squeezed(await answerOf(desk).innerText())).toContain('closed then');
		await desk.follow(answerOf(desk).getByRole('link', { name: 'Tue 8 June 2027 at 05:30' }));
		expect(squeezed(await answerOf(desk).innerText())).toContain(
			'may open Cold room 1 from the dock on Tue 8 June 2027 at 05:30, because assignment a-floor gives profile Floor, early and late'
		);
	});
});

describe('a question in words', () => {
	it('is read aloud, offers what else it may mean, and lists who may', async () => {
		const desk = await deskOf();
		await desk.open('A-4');
		const answer = answerOf(desk);
		await answer.getByLabel('Ask in words').fill('who can open the cold room at 2:30 on 25 December?');
		await desk.follow(answer.getByRole('button', { name: 'Ask in words' }));
		const text = squeezed(await answer.innerText());
		expect(text).toContain('cold room is area Cold rooms');
		expect(text).toContain('2:30 may also be: 14:30');
		expect(text).toMatch(/\d+ people may open a door into Cold rooms on Sat 25 December 2027 at 02:30/);
		expect(await violationsOf(desk.page)).toEqual([]);
		await desk.follow(answer.getByRole('link', { name: 'door Cold room 1 from the dock (cold-1)' }));
		expect(squeezed(await answer.innerText())).toMatch(/may open Cold room 1 from the dock on Sat 25 December 2027/);
		await desk.follow(answer.getByRole('link', { name: 'Refrigeration' }));
		expect(squeezed(await answer.innerText())).toContain('people of Refrigeration may open');
		const href = await answer.getByRole('link', { name: 'Take out as CSV' }).getAttribute('href');
		const file = await desk.page.request.get(new URL(href ?? '', desk.page.url()).href);
		expect((await file.text()).split('\r\n')[0]).toBe('\ufeffperson,name,department,doors,can get there,at');
		expect((await file.text()).split('\r\n').length).toBeGreaterThan(5);
	});

	it('that is not understood says why, and a slip is offered its name', async () => {
		const desk = await deskOf();
		await desk.open('A-4', `?q=${encodeURIComponent('who can open the frnt entrance at 25:00')}`);
		const answer = answerOf(desk);
		const text = squeezed(await answer.innerText());
		expect(text).toContain('25:00 is no time of day');
		expect(text).toContain('door Front entrance (front)');
		expect(text).not.toContain('may open');
	});

	it('tells when, and what', async () => {
		const desk = await deskOf();
		await desk.open('A-4', `?q=${encodeURIComponent('when can 00106 open cold-1 on 8 June')}`);
		expect(squeezed(await answerOf(desk).innerText())).toContain(
			'Tue 8 June 2027 at 05:30 to Tue 8 June 2027 at 22:30'
		);
		await desk.open('A-4', `?q=${encodeURIComponent('what can 00106 open at noon on 8 June')}`);
		expect(squeezed(await answerOf(desk).innerText())).toMatch(/may open \d+ doors on Tue 8 June 2027 at 12:00/);
		expect(await violationsOf(desk.page)).toEqual([]);
	});
});
