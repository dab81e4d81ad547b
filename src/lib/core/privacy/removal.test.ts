import { expect, test } from 'vitest';
import { smallSite } from '../../../../tests/support/small-site';
import { readRolloutValue } from '../answers/support/read-rollout';
import { localDate } from '../calendar/local-date';
import { TextNeedles } from '../kernel/text-needles';
import { removalLines, withoutPeople } from './removal';

function lines(privacy: object, on: string) {
	const read = readRolloutValue(smallSite({ privacy }));
	if (!read.ok) throw new Error('can be read');
	return removalLines(read.value.rollout, localDate(on)).map(
		({ person, removeOn, isDue, stays }) => `${person} ${removeOn ?? '-'} ${isDue ? 'due' : 'not'} ${stays.join('+')}`
	);
}

test('people go so many days after the go-live of their wave, without one after the last of the site', () => {
	// 25 January 2027 plus 30 days is 24 February.
	const office = { removePeopleAfterDays: 30 };
	expect(lines({ office }, '2027-02-23')[0]).toBe('1001 2027-02-24 not ');
	expect(lines({ office }, '2027-02-24')).toEqual([
		'1001 2027-02-24 due ',
		'1002 2027-02-24 due ',
		'1003 2027-02-24 due '
	]);
	expect(lines({}, '2027-12-24')[0]).toBe('1001 - not ');
});

test('nobody goes while a template, a hold or an open request is left', () => {
	const privacy = {
		office: { removePeopleAfterDays: 0 },
		templates: [
			{ person: '1001', enrolledOn: '2027-01-11', storedOn: ['c1', 's1'], erasures: [{ from: 'c1', on: '2027-02-01' }] }
		],
		holds: [{ person: '1002', from: '2027-01-01', until: '2027-03-01' }],
		requests: [
			{ id: 'q', person: '1003', kind: 'access', receivedOn: '2027-01-01', answeredOn: '2027-03-01', answer: 'x' }
		]
	};
	const stays = (on: string) => lines(privacy, on).map((line) => line.split(' ').at(-1));
	expect(stays('2027-02-28')).toEqual(['template', 'hold', 'request']);
	expect(stays('2027-03-02')).toEqual(['template', '', '']);
});

test('a document without people is one that can be read, and names them nowhere', () => {
	const document = smallSite({
		doors: [{ id: 'main', from: 'street', to: 'lobby', controller: 'c1', owner: 'Ask Ada Quill, ada@example.org' }],
		doorGroups: [],
		readers: [],
		accessProfiles: [{ id: 'staff' }],
		assignments: [
			{ id: 'a1', who: { people: ['1001'], departments: ['Office'] }, accessProfile: 'staff' },
			{ id: 'a2', who: { people: ['1001'] }, accessProfile: 'staff', approvedBy: 'Cleo Tarn' },
			{ id: 'a3', who: { people: ['1001', '1002'] }, accessProfile: 'staff', approvedBy: 'Ada Quill' }
		]
	});
	const needles = new TextNeedles();
	for (const text of ['1001', 'Ada Quill', 'ada@example.org']) needles.add(text);
	const left = withoutPeople(document, new Set(['1001']), needles);
	expect(readRolloutValue(left).ok).toBe(true);
	expect(JSON.stringify(left)).not.toMatch(/1001|Quill|ada@/);
	expect(left.assignments?.map(({ id }) => id)).toEqual(['a1', 'a3']);
	expect(left.people?.map(({ id }) => id)).toEqual(['1002', '1003']);
	expect(left.schedules).toBe(document.schedules);
	expect([left.privacy?.holds?.length, left.privacy?.consents, left.privacy?.templates]).toEqual([1, [], []]);
});
