import { describe, expect, test } from 'vitest';
import { smallSite } from '../../../../tests/support/small-site';
import { readRolloutValue } from '../answers/support/read-rollout';
import { localDate } from '../calendar/local-date';
import { applyEdit } from '../edits';

const today = localDate('2027-06-01');

/** Where an edit of the small site is refused on a day; nothing where it is not. */
function refused(edit: string, params: unknown, on: typeof today | null = today): string[] {
	const read = readRolloutValue(smallSite());
	if (!read.ok) throw new Error('the small site can be read');
	const after = applyEdit(read.value, edit, params, on ?? undefined);
	return after.ok ? [] : after.faults.map(({ path, expected }) => `${path}: ${expected}`);
}

const given = { people: ['1002'], notice: 'n1', decision: 'given', on: '2027-06-01' };
const request = { id: 'q1', person: '1001', kind: 'access', receivedOn: '2027-05-03' };
const put = (collection: string, entry: object, at?: string | number) =>
	refused('put-entry', { collection, entry, ...(at === undefined ? {} : { at }) });

describe('decisions', () => {
	test('are not dated ahead, however they are entered', () => {
		expect(refused('record-consent', given)).toEqual([]);
		const ahead = 'a date not after today, 2027-06-01: a decision cannot be dated ahead';
		expect(refused('record-consent', { ...given, people: ['1002', '1003'], on: '2027-06-02' })).toEqual([
			`$.on: ${ahead}`
		]);
		const entry = { person: '1002', notice: 'n1', decision: 'given', on: '2027-06-02' };
		expect(put('consents', entry)).toEqual([`$.entry.on: ${ahead}`]);
		const all = { edits: [{ edit: 'put-entry', params: { collection: 'consents', entry } }] };
		expect(refused('all-of', all)).toEqual([`$.edits[0].params.entry.on: ${ahead}`]);
	});

	test('cannot withdraw what was never given', () => {
		const withdrawal = { person: '1002', notice: 'n1', decision: 'withdrawn', on: '2027-05-01' };
		expect(put('consents', withdrawal)).toEqual([
			expect.stringMatching(/^\$\.entry\.decision: given or declined: 1002/)
		]);
		expect(put('consents', { ...withdrawal, person: '1001' })).toEqual([]);
	});

	test('are not given under a notice before it was published', () => {
		const early = { ...given, on: '2027-03-01' };
		const entry = { id: 'n1', version: '1.0', publishedOn: '2027-03-02' };
		const edits = [
			{ edit: 'put-entry', params: { collection: 'notices', at: 'n1', entry } },
			{ edit: 'record-consent', params: early }
		];
		expect(refused('all-of', { edits })).toEqual([
			'$.edits[1].params.on: a date on or after 2027-03-02, when notice n1 was published'
		]);
	});
});

describe('notices', () => {
	test('have a version each in their language', () => {
		expect(put('notices', { id: 'n2', version: '1.0' })).toEqual([
			'$.entry.version: a version that no other notice has; n1 has this one'
		]);
		expect(put('notices', { id: 'n2', version: '1.0', language: 'es' })).toEqual([]);
		expect(put('notices', { id: 'n2', version: '1.1' })).toEqual([]);
	});

	test('are published when they are, and replace another one', () => {
		expect(put('notices', { id: 'n2', publishedOn: '2027-06-02', replaces: 'n2' })).toEqual([
			'$.entry.publishedOn: a date not after today, 2027-06-01: leave it empty until the notice is published',
			'$.entry.replaces: another notice than itself'
		]);
	});
});

describe('requests', () => {
	test('are entered once they have come, with reason and answer', () => {
		expect(put('requests', request)).toEqual([]);
		expect(
			put('requests', { ...request, receivedOn: '2027-06-02', extendedOn: '2027-06-03', answeredOn: '2027-06-04' })
		).toEqual([
			expect.stringMatching(/receivedOn: a date not after today/),
			expect.stringMatching(/extendedOn: a date not after today/),
			expect.stringMatching(/answeredOn: a date not after today/),
			expect.stringMatching(/extensionReason: why the answer takes longer/),
			expect.stringMatching(/answer: what was answered/)
		]);
		expect(put('requests', { ...request, answeredOn: '2027-05-02', answer: 'x' })).toEqual([
			'$.entry.answeredOn: a date on or after receivedOn, 2027-05-03'
		]);
		expect(put('requests', { ...request, person: '1009' })).toEqual(['$.entry.person: the id of a person']);
	});
});

test('a whole document is taken as the contract allows, and without a clock no date is judged', () => {
	const document = smallSite();
	const consents = [{ person: '1002', notice: 'n1', decision: 'withdrawn', on: '2030-01-01' }];
	const odd = { ...document, privacy: { ...document.privacy, consents } };
	expect(refused('replace-document', { document: odd })).toEqual([]);
	expect(refused('record-consent', { ...given, on: '2030-01-01' }, null)).toEqual([]);
});

test('an id that changes elsewhere raises nothing about entries that were there', () => {
	const document = smallSite();
	const consents = [{ person: '1002', notice: 'n1', decision: 'withdrawn' as const, on: '2030-01-01' }];
	const read = readRolloutValue({ ...document, privacy: { ...document.privacy, consents } });
	if (!read.ok) throw new Error('can be read');
	const renamed = applyEdit(read.value, 'rename-entry', { collection: 'people', at: '1002', to: '1002b' }, today);
	expect(renamed.ok ? [] : renamed.faults).toEqual([]);
});
