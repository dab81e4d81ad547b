import { describe, expect, test } from 'vitest';
import type { z } from 'zod';
import { smallSite } from '../../../../tests/support/small-site';
import { readRolloutValue } from '../answers/support/read-rollout';
import { localDate } from '../calendar/local-date';
import { collections, links } from '../document/collections';
import { entrySchemas } from '../document/lists';
import type { Rollout } from '../document/schema';
import { personRecord, somebodyElse } from './person-record';
import { recordText } from './record-text';

const on = localDate('2027-06-01');

/** A site on which somebody else is named wherever words are free. */
function site(): Rollout {
	const document = smallSite();
	const other = 'Ben Marsh (1002), ben@example.org';
	const consent = { person: '1001', notice: 'n1', on: '2027-01-05', method: `by ${other}`, witness: 'Ben Marsh' };
	const read = readRolloutValue({
		...document,
		people: document.people?.map((one) => ({
			...one,
			email: `${String(one.name).slice(0, 3).toLowerCase()}@example.org`,
			needs: one.id === '1001' ? ['step-free'] : []
		})),
		assignments: [
			{
				id: 'a1',
				who: { people: ['1001', '1002'], departments: ['Packing'] },
				accessProfile: 'staff',
				approvedBy: 'Cleo Tarn'
			}
		],
		enrollment: {
			...document.enrollment,
			visits: [{ person: '1001', station: 's1', on: '2027-01-11', minutes: 9, outcome: 'enrolled' }]
		},
		privacy: {
			...document.privacy,
			erasureOrders: [
				{
					id: 'w1',
					person: '1001',
					enrolledOn: '2027-01-11',
					openedOn: '2027-02-05',
					openedBy: 'Cleo Tarn',
					reason: `asked by ${other}`,
					reports: [{ from: 's1', on: '2027-02-06', by: 'Cleo Tarn', evidence: 'photo 3' }]
				}
			],
			consents: [
				{ ...consent, decision: 'given', at: '09:30', signature: 'Ada Quill', drawing: 'M1 2L3 4' },
				{ ...consent, decision: 'withdrawn', on: '2027-02-05', reference: 'paper 17', alternative: 'card' }
			],
			templates: [
				{
					person: '1001',
					enrolledOn: '2027-01-11',
					lastUsedOn: '2027-01-20',
					unneededSince: '2027-02-05',
					storedOn: ['c1', 's1'],
					erasures: [{ from: 'c1', on: '2027-02-06', by: 'Cleo Tarn', evidence: `seen by ${other}` }]
				}
			],
			holds: [{ person: '1001', from: '2027-05-01', until: '2027-09-01', reason: `Claim of 1003 against ${other}` }],
			requests: [
				{
					id: 'q1',
					person: '1001',
					kind: 'access',
					receivedOn: '2027-05-03',
					channel: 'letter',
					identityCheckedOn: '2027-05-04',
					identityCheckedHow: 'badge',
					extendedOn: '2027-05-05',
					extensionReason: 'archive',
					answeredOn: '2027-05-06',
					answer: 'sent'
				},
				{ id: 'q2', person: '1002', kind: 'erasure', receivedOn: '2027-05-03', channel: 'by phone' }
			]
		}
	});
	if (!read.ok) throw new Error(read.faults.map(({ message }) => message).join('\n'));
	return read.value.rollout;
}

/** The record as JSON and as text. */
function told(rollout: Rollout, person: string): readonly string[] {
	const record = personRecord(rollout, person, on);
	if (!record) throw new Error('there is such a person');
	return [JSON.stringify(record), recordText(record)];
}

describe('everything held on one person', () => {
	test.each(['1001', '1002', '1003'])('of %s holds no name, number or address of anyone else', (person) => {
		const rollout = site();
		for (const text of told(rollout, person)) {
			for (const { id, name, email } of rollout.people.filter((one) => one.id !== person)) {
				for (const word of [id, name, email]) expect(text, String(word)).not.toContain(word);
			}
		}
	});

	test('says where somebody else was named in free words', () => {
		expect(told(site(), '1001')[0]).toContain(`Claim of ${somebodyElse} against ${somebodyElse} (${somebodyElse})`);
	});

	// Who acted is about those people; notices and the like are looked up by their ids.
	const notTold = ['by', 'secondBy', 'openedBy', 'witness'];

	test.each(links.filter(({ to }) => to === 'people').map(({ at }) => at))('tells every field of %s', (at) => {
		const list = at.replace(/\[\]\..*$/, '');
		const [name] = Object.entries(collections).find(([, { path }]) => path === list) ?? [];
		if (name === undefined) throw new Error(`${list} is no list`);
		const shape = (entrySchemas[name as 'people'] as unknown as z.ZodObject).shape;
		const record = personRecord(site(), '1001', on);
		const entries = list === 'assignments' ? record?.access : record?.[list.split('.').at(-1) as 'holds'];
		expect(Array.isArray(entries), list).toBe(true);
		if (list === 'assignments') return;
		expect(entries?.length, list).toBeGreaterThan(0);
		const keys = new Set(entries?.flatMap((entry) => Object.keys(entry as object)));
		for (const key of Object.keys(shape))
			if (!notTold.includes(key)) expect([...keys], `${list}.${key}`).toContain(key);
	});

	test('tells every value that stands in the entries of the person', () => {
		const rollout = site();
		const [json = '', text = ''] = told(rollout, '1001');
		const values = ['Ada Quill', 'ada@example.org', 'Packing', 'step-free', 'Hall', '2027-02-01', '2027-02-05'];
		values.push('2027-01-11T08:00', '09:30', 'M1 2L3 4', 'paper 17', 'card', '2027-01-20', '2027-02-06', 's1');
		values.push(
			'us-il/purpose-ended',
			'2027-09-01',
			'letter',
			'badge',
			'archive',
			'2027-05-06',
			'sent',
			'Main entrance'
		);
		for (const value of values) {
			expect(json).toContain(value);
			expect(text).toContain(value);
		}
	});

	test('is nothing where there is no such person', () => {
		expect(personRecord(site(), '1009', on)).toBeUndefined();
	});
});
