import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { enterpriseUrn } from '../../src/lib/core/roster/scim/user-schemas';
import { ScimClient, idOf } from '../scim/client';
import { violationsOf } from '../support/accessibility';
import { useBrowser } from '../support/browser';
import { type RunningApp, startApp } from '../support/server';
import { Desk } from './pages/desk';

const browser = useBrowser();
let app: RunningApp;
beforeAll(async () => {
	app = await startApp();
});
afterAll(() => app.stop());

const rollout = 'ember-lane-kiln-yard';

describe('an identity provider over HTTP', () => {
	it('gets a token that is shown once, sends a joiner and a leaver, and a person takes them over', async () => {
		const desk = new Desk(await browser.open(), app.url, rollout);
		const { page } = desk;
		await desk.open('P-4');
		expect(await violationsOf(page)).toEqual([]);
		await page.getByLabel('What the token is for').fill('Directory');
		await page.getByRole('button', { name: 'Make a token' }).click();
		const shown = page.getByRole('status').locator('code');
		await shown.waitFor();
		const token = await shown.innerText();
		expect(token).toMatch(/^doorwright_scim_[\w-]{43}$/);
		expect(await violationsOf(page)).toEqual([]);

		const client = new ScimClient(`${app.url}/scim/v2/r/${rollout}`, token);
		const made = await client.ask('POST', '/Users', {
			schemas: ['urn:ietf:params:scim:schemas:core:2.0:User', enterpriseUrn],
			userName: 'new@kiln.example',
			name: { givenName: 'Odile', familyName: 'Varga' },
			[enterpriseUrn]: { employeeNumber: 'K99' }
		});
		expect(made.status).toBe(201);
		expect(made.headers.get('location')).toContain(`${app.url}/scim/v2/r/${rollout}/Users/`);
		const leaver = await client.ask('POST', '/Users', {
			schemas: ['urn:ietf:params:scim:schemas:core:2.0:User'],
			userName: 'K08',
			active: 'False'
		});
		expect(leaver.status).toBe(201);
		const filter = encodeURIComponent('userName eq "NEW@kiln.example"');
		expect((await client.ask('GET', `/Users?filter=${filter}`)).body).toMatchObject({ totalResults: 1 });
		const stale = await client.ask('DELETE', `/Users/${idOf(made.body)}`, undefined, { 'if-match': 'W/"7"' });
		expect(stale.status).toBe(412);
		expect((await new ScimClient(`${app.url}/scim/v2/r/${rollout}`, 'guess').ask('GET', '/Users')).status).toBe(401);

		await desk.open('P-4');
		expect(await page.getByRole('status').count()).toBe(0);
		const proposed = await page.getByRole('table', { name: /Proposed changes/ }).innerText();
		expect(proposed).toContain('Odile Varga');
		expect(await violationsOf(page)).toEqual([]);
		expect(await desk.send(page.getByRole('button', { name: 'Take over Odile Varga (K99)' }))).toBe(303);
		await desk.open('P-1');
		expect(await page.getByText('Odile Varga').count()).toBeGreaterThan(0);
	});
});
