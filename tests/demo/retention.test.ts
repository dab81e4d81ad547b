import { describe, expect, it } from 'vitest';
import { ask, demoBytes, demoRollout } from './support/demo-files';
import { quoted, tableRows } from './support/readme';

interface RetentionAnswer {
	templates: { person: string; state: string; left: string[] }[];
	consentProblems: { code: string; person: string | null }[];
}

const rollout = demoRollout(demoBytes('larkfen-cold-store.json'));
const rows = tableRows('Consent and retention', 'Person');

describe('consent and retention at Larkfen Cold Store', () => {
	it.each([
		['2026-11-25', 1],
		['2027-01-15', 2]
	])('on %s wants done what the README tells, and nothing else', async (on, column) => {
		const { templates } = (await ask('retention', rollout, { on })) as RetentionAnswer;
		const pressing = templates.filter(({ state }) => state !== 'kept' && state !== 'erased');
		const told = rows.flatMap((row) => quoted(row[0]).map((person) => [person, row[column]]));
		expect(pressing.map(({ person, state }) => [person, state]).sort()).toEqual(told.sort());
	});

	it('knows the person who was enrolled twice', async () => {
		const { templates } = (await ask('retention', rollout, { on: '2026-11-25' })) as RetentionAnswer;
		const states = templates.filter(({ person }) => person === '00561').map(({ state }) => state);
		expect(states.sort()).toEqual(['erased', 'kept']);
	});

	it('has the two consents that want attention of people who are still there', async () => {
		const { consentProblems } = (await ask('retention', rollout, { on: '2026-11-25' })) as RetentionAnswer;
		const gone = new Set(rollout.people.filter(({ leavesOn }) => leavesOn !== null).map(({ id }) => id));
		const open = consentProblems.filter(({ person }) => person !== null && !gone.has(person));
		expect(open.map(({ code, person }) => `${person} ${code}`).sort()).toEqual([
			'00186 consent-withdrawn',
			'00913 consent-after-enrollment',
			'00941 consent-notice-outdated'
		]);
	});
});
