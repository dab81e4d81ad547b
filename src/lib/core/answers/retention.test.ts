import { describe, expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import { localDate } from '../calendar/local-date';
import type { Rollout } from '../document/schema';
import { unwatched } from '../kernel/work';
import retention from './retention';

const day = localDate;
const rollout = rolloutOf({
	people: [
		{ id: '1001', name: 'Ada Example', leavesOn: day('2027-05-31') },
		{ id: '1002', name: 'Ben Sample' }
	],
	holidays: { days: [{ date: day('2027-05-31'), kind: 'public' }] },
	privacy: {
		regimes: ['us-il'],
		notices: [{ id: 'n1' }],
		consents: [{ person: '1001', notice: 'n1', decision: 'given', on: day('2027-01-05') }],
		templates: [
			{ person: '1002', enrolledOn: day('2027-01-11'), storedOn: ['c1'] },
			{ person: '1001', enrolledOn: day('2027-01-11'), storedOn: ['c1', 'backup'] }
		]
	}
});

async function ask(on: string, about: Rollout = rollout) {
	const answer = await retention.run(about, { on: day(on) }, unwatched);
	if (!answer.ok) throw new Error('refused');
	return answer.value;
}

test('templates stand as listed, in the fields of the contract and no others', async () => {
	const { templates, consentProblems } = await ask('2027-06-01');
	expect(templates.map(({ person, state }) => `${person} ${state}`)).toEqual(['1002 kept', '1001 overdue']);
	expect(templates[1]).toEqual({
		person: '1001',
		enrolledOn: '2027-01-11',
		state: 'overdue',
		eraseBy: '2027-05-31',
		rule: 'us-il/purpose-ended',
		trigger: 'left',
		triggerDate: '2027-05-31',
		left: ['c1', 'backup'],
		candidates: [
			{
				rule: 'us-il/purpose-ended',
				trigger: 'left',
				triggerDate: '2027-05-31',
				eraseBy: '2027-05-31',
				source: '740 ILCS 14/15(a), initial purpose satisfied'
			},
			{
				rule: 'us-il/three-years',
				trigger: 'last-use',
				triggerDate: '2027-01-11',
				eraseBy: '2030-01-11',
				source: '740 ILCS 14/15(a), within 3 years of the last interaction'
			}
		]
	});
	expect(consentProblems.map((problem) => Object.keys(problem))).toEqual([
		['code', 'person', 'message', 'dates'],
		['code', 'person', 'message', 'dates']
	]);
});

describe('bad is an overdue template alone', () => {
	test('not a template due, held, or a problem of consent', async () => {
		expect(retention.isBad(await ask('2027-05-31'))).toBe(false);
		expect(retention.isBad(await ask('2027-06-01'))).toBe(true);
		const held = { ...rollout.privacy, holds: [{ person: '1001', from: null, until: null, reason: 'A claim' }] };
		const onHold = await ask('2027-06-01', { ...rollout, privacy: held });
		expect(onHold.consentProblems.length).toBeGreaterThan(0);
		expect(retention.isBad(onHold)).toBe(false);
	});
});

describe('for a person', () => {
	test('overdue first, the day to act on before a holiday, and how well the rule is known', async () => {
		const text = retention.text(await ask('2027-06-01'), rollout, { on: '2027-06-01' as never });
		const lines = text.split('\n').map((line) => line.split(/ {2,}/));
		expect(lines[0]).toEqual(['2 templates: 1 overdue, 1 kept.']);
		expect(lines[2]?.slice(0, 5)).toEqual(['State', 'Person', 'Name', 'Erase by', 'Act by']);
		expect(lines[3]).toEqual([
			'overdue',
			'1001',
			'Ada Example',
			'2027-05-31',
			'2027-05-28',
			'us-il/purpose-ended',
			'assumption',
			'left 2027-05-31',
			'c1, backup'
		]);
		expect(lines[4]?.slice(0, 7)).toEqual([
			'kept',
			'1002',
			'Ben Sample',
			'2030-01-11',
			'2030-01-11',
			'us-il/three-years',
			'settled'
		]);
		expect(text).toContain('consent-missing: Ben Sample (1002) has a template and no consent given.');
	});

	test('ends with the caution that counsel confirms, also where there is nothing to tell', async () => {
		const empty = rolloutOf();
		for (const text of [
			retention.text(await ask('2027-06-01'), rollout, { on: '2027-06-01' as never }),
			retention.text(await ask('2027-06-01', empty), empty, { on: '2027-06-01' as never })
		]) {
			expect(text.split('\n').at(-1)).toMatch(/^Not legal advice: have counsel confirm/);
		}
		expect(retention.text(await ask('2027-06-01', empty), empty, { on: '2027-06-01' as never })).toContain(
			'No template is on record.'
		);
	});

	test('a template without a date says so', async () => {
		const undated = { ...rollout, privacy: { ...rollout.privacy, regimes: [] } };
		expect(retention.text(await ask('2027-06-01', undated), undated, { on: '2027-06-01' as never })).toContain(
			'no date'
		);
	});
});

test('the day must be a date that exists', () => {
	expect(retention.params.safeParse({ on: '2027-02-29' }).success).toBe(false);
	expect(retention.params.safeParse({}).success).toBe(false);
	expect(retention.params.safeParse({ on: '2028-02-29', until: '2028-03-01' }).success).toBe(false);
	expect(retention.params.parse({ on: '2028-02-29' })).toEqual({ on: '2028-02-29' });
});
