import { describe, expect, test } from 'vitest';
import { readValue } from '../document/read';
import { importRoster } from '../roster/import-roster';
import { takingOver } from '../roster/taking-over';
import { localDate } from '../calendar/local-date';
import { rulePacks } from '../privacy/packs';
import { applyEdit } from '.';

const document = {
	format: 'doorwright.rollout',
	version: 1,
	site: { name: 'Larkfen', timeZone: 'America/Chicago' },
	horizon: { from: '2027-01-04', until: '2027-12-31' },
	people: [
		{ id: '0001', name: 'Ana Ruiz', department: 'Packing', needs: ['step-free'], startsOn: '2020-02-01' },
		{ id: '0002', name: 'Ben Ode', department: 'Office', language: 'en' },
		{ id: '0003', name: 'Cem Kaya', department: 'Packing', leavesOn: '2027-01-15' },
		{ id: '0004', name: 'Dan Moe', startsOn: '2027-06-01' }
	]
};

function readBefore() {
	const read = readValue(document, { regimes: rulePacks.keys() });
	if (!read.ok) throw new Error('no document');
	return read.value;
}

function proposal(text: string) {
	const result = importRoster(new TextEncoder().encode(text), { into: readBefore().rollout });
	if (!result.ok) throw new Error(result.faults[0]?.message);
	return result.value;
}

const roster =
	'id,name,department,start date\n0001,Ana Ruiz,Packing,2020-02-01\n0002,Ben Ode,Packing,\n0005,Eva Moe,Night crew,2027-02-01\n';

describe('a roster taken over', () => {
	const leavesOn = localDate('2027-01-31');
	const only = new Set(['0002', '0003', '0005']);
	const change = applyEdit(readBefore(), 'apply-roster', takingOver(proposal(roster), { leavesOn, only }));
	if (!change.ok) throw new Error(change.faults[0]?.message);
	const people = change.value.document.people ?? [];

	test('adds who joined, with what is known of them', () => {
		expect(people[4]).toEqual({ id: '0005', name: 'Eva Moe', department: 'Night crew', startsOn: '2027-02-01' });
	});
	test('changes only the fields of the roster that differ', () => {
		expect(people[1]).toEqual({ id: '0002', name: 'Ben Ode', department: 'Packing', language: 'en' });
		expect(people[0]).toBe(document.people[0]);
	});
	test('ends the employment of who left, never later than it ends already, and deletes nobody', () => {
		expect(people[2]).toBe(document.people[2]);
		expect(people.length).toBe(5);
	});
	test('says what was done', () => {
		expect(change.value.what).toBe('Roster taken over: 1 joined, 1 changed, 1 left');
	});
	test('the same roster then changes nothing more', () => {
		const again = importRoster(new TextEncoder().encode(roster), { into: change.value.rollout });
		expect(again.ok && again.value.changes).toMatchObject({
			joined: [],
			moved: [],
			unchanged: ['0001', '0002', '0005']
		});
	});
});

describe('refused', () => {
	const faultsOf = (params: unknown) => {
		const change = applyEdit(readBefore(), 'apply-roster', params);
		return change.ok ? [] : change.faults.map(({ path }) => path);
	};

	test('with every fault, at the parameter that caused it', () => {
		const params = {
			people: [
				{ id: '0001', startsOn: '2027-02-30' },
				{ id: '0006', name: 7 },
				{ id: '0007', wave: 'w9' },
				{ id: '0008', nam: 'x' }
			]
		};
		expect(faultsOf(params)).toEqual([
			'$.people[0].startsOn',
			'$.people[1].name',
			'$.people[3].nam',
			'$.people[2].wave'
		]);
	});
	test('an id twice; somebody who is not there, is given too, or has not started, among who left', () => {
		expect(faultsOf({ people: [{ id: '0001' }, { id: '0001' }] })).toEqual(['$.people[1].id']);
		const leave = { ids: ['0009', '0001', '0004'], leavesOn: '2027-01-31' };
		expect(faultsOf({ people: [{ id: '0001' }], leave })).toEqual([
			'$.leave.ids[0]',
			'$.leave.ids[1]',
			'$.leave.ids[2]'
		]);
	});
	test('a field that has changed since the proposal was made', () => {
		expect(
			faultsOf({ people: [{ id: '0002', department: 'Packing' }], was: [{ id: '0002', department: 'Canteen' }] })
		).toEqual(['$.was']);
		expect(
			faultsOf({
				people: [{ id: '0002', department: 'Packing' }],
				was: [{ id: '0002', department: 'Office', email: null }]
			})
		).toEqual([]);
	});
	test('an unknown parameter', () => {
		expect(faultsOf({ persons: [] })).toEqual(['$.people', '$.persons']);
	});
});

test('a last day before the first is left out, so that the other rows can be taken over', () => {
	const answer = proposal(
		'id,name,start date,end date\n0001,Ana Ruiz,2020-02-01,2019-01-01\n0007,Eva Moe,2020-02-01,2019-01-01\n'
	);
	expect(answer.problems.map(({ code }) => code)).toEqual(['leaves-before-start', 'leaves-before-start']);
	expect(takingOver(answer)).toEqual({
		people: [{ id: '0007', name: 'Eva Moe', startsOn: '2020-02-01' }],
		was: [],
		leave: null
	});
});
