import { describe, expect, test } from 'vitest';
import { done, refusals, site } from '../../../../tests/support/edits';

describe('record-consent', () => {
	test('adds an entry for each person', () => {
		const { document, what } = done('record-consent', {
			people: ['1002', '1003'],
			notice: 'n1',
			decision: 'given',
			on: '2027-01-06',
			method: 'signed-form'
		});
		expect(document.privacy?.consents?.slice(1)).toEqual([
			{ person: '1002', notice: 'n1', decision: 'given', on: '2027-01-06', method: 'signed-form' },
			{ person: '1003', notice: 'n1', decision: 'given', on: '2027-01-06', method: 'signed-form' }
		]);
		expect(what).toBe('Consent entry of 2 people recorded: given on 2027-01-06');
	});

	test('refuses people and notices that are not there, and what is recorded already', () => {
		const given = { notice: 'n1', decision: 'given', on: '2027-01-05' };
		expect(refusals('record-consent', { ...given, people: ['1001'] })).toEqual(['$.people[0]']);
		expect(refusals('record-consent', { ...given, people: ['1003', '1003', '9'], notice: 'n2' })).toEqual([
			'$.people[1]',
			'$.people[2]',
			'$.notice (n1?)'
		]);
		expect(refusals('record-consent', { ...given, people: [], on: 'today', decision: 'maybe' }).sort()).toEqual([
			'$.decision',
			'$.on',
			'$.people'
		]);
	});

	test('refuses a withdrawal of what was never given, or only later', () => {
		const withdrawal = { notice: 'n1', decision: 'withdrawn', on: '2027-01-05' };
		expect(done('record-consent', { ...withdrawal, people: ['1001'] }).document.privacy?.consents).toHaveLength(2);
		expect(refusals('record-consent', { ...withdrawal, people: ['1001', '1002'] })).toEqual(['$.people[1]']);
		expect(refusals('record-consent', { ...withdrawal, people: ['1001'], on: '2027-01-04' })).toEqual(['$.people[0]']);
	});
});

describe('record-erasure', () => {
	test('empties the places named, or all that are left', () => {
		const one = done('record-erasure', {
			person: '1001',
			places: ['c1'],
			on: '2027-06-01',
			by: 'Otto',
			evidence: 'log 7'
		});
		expect(one.document.privacy?.templates?.[0]?.erasures).toEqual([
			{ from: 'c1', on: '2027-06-01', by: 'Otto', evidence: 'log 7' }
		]);
		const rest = done('record-erasure', { person: '1001', on: '2027-06-02' }, one);
		expect(rest.document.privacy?.templates?.[0]?.erasures?.[1]).toEqual({ from: 's1', on: '2027-06-02' });
		expect(refusals('record-erasure', { person: '1001', on: '2027-06-03' }, rest)).toEqual(['$.person']);
		expect(
			refusals('record-erasure', { person: '1001', enrolledOn: '2027-01-11', places: ['c1'], on: '2027-06-03' }, rest)
		).toEqual(['$.places[0]']);
	});

	test('takes the template that has something left, and does not count an erasure from before the enrollment', () => {
		const privacy = {
			templates: [
				{ person: '1001', enrolledOn: '2026-01-01', storedOn: ['c1'], erasures: [{ from: 'c1', on: '2026-06-01' }] },
				{ person: '1001', enrolledOn: '2027-01-11', storedOn: ['c1'], erasures: [{ from: 'c1', on: '2026-12-01' }] }
			]
		};
		const { document } = done('record-erasure', { person: '1001', on: '2027-02-01' }, site({ privacy }));
		expect(document.privacy?.templates?.map((one) => one.erasures?.length)).toEqual([1, 2]);
	});

	test('refuses places, people and days that do not fit', () => {
		expect(refusals('record-erasure', { person: '1001', places: ['c2'], on: '2027-01-01' })).toEqual([
			'$.places[0] (c1?)',
			'$.on'
		]);
		expect(refusals('record-erasure', { person: '1002', on: '2027-06-01' })).toEqual(['$.person']);
		expect(refusals('record-erasure', { person: '1091', on: '2027-06-01' })).toEqual(['$.person (1001?)']);
		expect(refusals('record-erasure', { person: '1001', enrolledOn: '2027-01-12', on: '2027-06-01' })).toEqual([
			'$.enrolledOn'
		]);
	});
});

test('a notice gets back its old id, also where a person has the same', () => {
	// Found by the property of renaming there and back: the entries that follow the name are not judged as new ones.
	const withdrawn = { person: '1003', notice: 'n1', decision: 'withdrawn', on: '2027-01-05' };
	const before = site({ privacy: { notices: [{ id: 'n1' }], consents: [withdrawn] } });
	const people = done('rename-entry', { collection: 'people', at: '1002', to: 'n1' }, before);
	const there = done('rename-entry', { collection: 'notices', at: 'n1', to: 'n9' }, people);
	const back = done('rename-entry', { collection: 'notices', at: 'n9', to: 'n1' }, there);
	expect(back.document.privacy?.consents).toEqual([withdrawn]);
});
