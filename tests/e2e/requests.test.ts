import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk, squeezed } from './pages/desk';

// Somebody asks what is held on them, is answered, and is removed at last: the way of a privacy officer.

const rollout = 'larkfen-cold-store';
const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

interface Written {
	readonly people: readonly { readonly id: string; readonly name: string; readonly email?: string }[];
	readonly privacy: {
		readonly templates: readonly { readonly person: string }[];
		readonly holds: readonly { readonly person: string }[];
	};
}

async function documentOf(): Promise<Written> {
	return (await (await fetch(`${app.url}/api/v1/rollouts/${rollout}`)).json()) as Written;
}

describe('a person asks', () => {
	it('what is held on them, is answered in time, and leaves no trace when removed', async () => {
		const { people, privacy } = await documentOf();
		const kept = new Set([...privacy.templates, ...privacy.holds].map(({ person }) => person));
		const person = people.find(({ id, email }) => !kept.has(id) && email !== undefined);
		if (person?.email === undefined) throw new Error('the demo has somebody without a template');
		const desk = new Desk(await browser.open(), app.url, rollout);

		// The site answers within 30 days, since the law of Illinois has no period that was read.
		await desk.open('R-3');
		const days = desk.page.locator('form[action*="setDays"]');
		await days.getByLabel('Days').fill('30');
		expect(await desk.send(days.getByRole('button', { name: 'Save' }))).toBe(303);
		const entry = desk.page.locator('form[action="?/putRequest"]');
		await entry.getByLabel(/^Person/).selectOption(person.id);
		await entry.getByLabel(/^Received on/).fill('2026-10-01');
		await entry.getByLabel('Identity checked on').fill('2026-10-02');
		expect(await desk.send(entry.getByRole('button', { name: 'Enter' }))).toBe(303);
		await desk.open('R-3', '?on=2026-10-20&request=q1');
		const row = desk.page.getByRole('row', { name: new RegExp(person.name) });
		expect(squeezed(await row.innerText())).toMatch(/2026-10-31.*open/i);

		// Everything held on the person, and nobody else: on the sheet and as JSON.
		const held = `${app.url}/r/${rollout}/requests/person/${encodeURIComponent(person.id)}`;
		await desk.visit(held.slice(app.url.length));
		const sheet = await desk.page.locator('main .body').innerText();
		const json = await (await fetch(`${held}/file`)).text();
		for (const text of [sheet, json]) {
			expect(text).toContain(person.name);
			for (const other of people) if (other.name !== person.name) expect(text).not.toContain(other.name);
		}

		await desk.open('R-3', '?request=q1');
		const answer = desk.page.locator('form[action*="putRequest"]').first();
		await answer.getByLabel('Answered on').fill('2026-10-05');
		await answer.getByLabel('Answer', { exact: true }).fill('Sheet handed over at the desk');
		expect(await desk.send(answer.getByRole('button', { name: 'Save' }))).toBe(303);
		expect(squeezed(await desk.page.getByRole('row', { name: new RegExp(person.name) }).innerText())).toMatch(
			/answered/i
		);

		// The person is removed at their own request; the copy that was taken is listed.
		await desk.visit(`/r/${rollout}/retention/removal?person=${encodeURIComponent(person.id)}`);
		expect(squeezed(await desk.page.locator('#copies').innerText())).toMatch(
			/everything held on one person.*may still hold/i
		);
		await desk.page.getByText(/^Remove 1 person/).click();
		const form = desk.page.locator('form[action*="remove"]');
		await form.getByLabel(/site’s name/).fill('Larkfen Cold Store');
		expect(await desk.send(form.getByRole('button', { name: 'Remove for good' }))).toBe(303);
		expect(squeezed(await desk.page.getByRole('status').innerText())).toContain('1 person was removed for good');
		expect((await documentOf()).people.some(({ id }) => id === person.id)).toBe(false);
		for (const file of readdirSync(app.dataFolder)) {
			const bytes = readFileSync(path.join(app.dataFolder, file));
			for (const text of [person.name, person.email]) expect(bytes.includes(text), `${text} in ${file}`).toBe(false);
		}
		await desk.open('G-2', '?head=');
		expect(squeezed(await desk.page.locator('#record').innerText())).toMatch(/The record fits/);
	});
});
