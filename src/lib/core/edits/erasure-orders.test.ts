import { describe, expect, test } from 'vitest';
import { localDate } from '../calendar/local-date';
import type { ReadDocument } from '../document/read';
import { erasureOrders } from '../privacy/erasure-orders';
import { retentionOn } from '../privacy/retention';
import { done, messages, refusals, site } from '../../../../tests/support/edits';
import { applyEdit } from '.';

/** The small site: 1001 has a template on c1 and s1, enrolled on 2027-01-11; 1002 is under a hold from 2027-05-01. */
const twoPlaces = () =>
	done('put-entry', {
		collection: 'templatePlaces',
		entry: { id: 'tape', name: 'Night backup', kind: 'backup', copies: ['c1'], keepsDays: 28 }
	});
const opened = (before?: ReadDocument) =>
	done('open-erasure', { people: ['1001'], on: '2027-06-01', by: 'Nora', reason: 'Left' }, before);
const withSecond = () => opened(done('set-part', { part: 'privacy.erasureRules', value: { secondPerson: true } }));
const work = { orders: ['E-1'], on: '2027-06-02', by: 'Otto', evidence: 'log 7' };
const stateOn = ({ rollout }: ReadDocument, on: string) => {
	const day = localDate(on);
	const [order] = erasureOrders(rollout, day);
	const state = retentionOn(rollout, day).templates[0];
	return {
		steps: order?.steps.map(({ place, state: step }) => `${place} ${step}`),
		done: order?.doneOn,
		left: state?.left
	};
};

describe('open-erasure', () => {
	test('numbers orders and adds what copies a place to where the template is stored', () => {
		const { document, what } = opened(twoPlaces());
		expect(document.privacy?.erasureOrders).toEqual([
			{ id: 'E-1', person: '1001', enrolledOn: '2027-01-11', openedOn: '2027-06-01', openedBy: 'Nora', reason: 'Left' }
		]);
		expect(document.privacy?.templates?.[0]?.storedOn).toEqual(['c1', 's1', 'tape']);
		expect(what).toBe('Erasure work order opened: template of 1001, on 2027-06-01');
	});

	test('refuses every one that cannot be opened, with the reason', () => {
		expect(refusals('open-erasure', { people: ['1001'], on: '2027-06-01' }, opened())).toEqual(['$.people[0]']);
		expect(refusals('open-erasure', { people: ['1002', '1O01', '1001'], on: '2027-01-10' })).toEqual([
			'$.people[0]',
			'$.people[1] (1001?)',
			'$.on'
		]);
		const held = done('put-entry', { collection: 'holds', entry: { person: '1001', reason: 'Claim' } });
		expect(messages('open-erasure', { people: ['1001'], on: '2027-06-01' }, held)).toContain('hold');
		expect(refusals('open-erasure', { people: [], on: 'soon' }).sort()).toEqual(['$.on', '$.people']);
	});
});

describe('confirm-erasure', () => {
	test('counts as erased when every place does, a backup once it has expired and somebody looked', () => {
		const one = done('confirm-erasure', { ...work, places: ['c1', 's1'] }, opened(twoPlaces()));
		expect(one.what).toBe('Erasure E-1 done at c1, s1 on 2027-06-02');
		// 2 June and 28 days.
		expect(stateOn(one, '2027-06-29')).toEqual({
			steps: ['c1 erased', 's1 erased', 'tape waiting'],
			done: null,
			left: ['tape']
		});
		expect(stateOn(one, '2027-06-30').steps?.at(-1)).toBe('tape expired');
		expect(erasureOrders(one.rollout, localDate('2027-06-30'))[0]?.steps[2]?.expiresOn).toBe('2027-06-30');
		const two = done('confirm-erasure', { ...work, places: ['tape'], on: '2027-06-30' }, one);
		expect(stateOn(two, '2027-06-30')).toEqual({
			steps: ['c1 erased', 's1 erased', 'tape erased'],
			done: '2027-06-30',
			left: []
		});
		// The day before it was not known yet.
		expect(stateOn(two, '2027-06-29').done).toBeNull();
	});

	test('refuses what was not so: before enrollment, at a strange place, twice, without evidence', () => {
		const before = opened();
		expect(refusals('confirm-erasure', { ...work, places: ['c1'], on: '2027-01-10' }, before)).toEqual(['$.on']);
		expect(refusals('confirm-erasure', { ...work, places: ['c2', 's1'] }, before)).toEqual(['$.places[0] (c1?)']);
		expect(refusals('confirm-erasure', { ...work, orders: ['E-2'], places: ['c1'] }, before)).toEqual([
			'$.orders[0] (E-1?)'
		]);
		expect(refusals('confirm-erasure', { ...work, places: ['c1'], by: ' ', evidence: '' }, before).sort()).toEqual([
			'$.by',
			'$.evidence'
		]);
		const once = done('confirm-erasure', { ...work, places: ['c1'] }, before);
		expect(refusals('confirm-erasure', { ...work, places: ['c1'] }, once)).toEqual(['$.places[0]']);
		const held = done('put-entry', { collection: 'holds', entry: { person: '1001', reason: 'Claim' } }, before);
		expect(messages('confirm-erasure', { ...work, places: ['c1'] }, held)).toContain('hold');
	});

	test('leaves a place open that is offline, and says so', () => {
		const offline = done(
			'put-entry',
			{ collection: 'templatePlaces', entry: { id: 's1', offlineSince: '2027-05-30' } },
			opened()
		);
		expect(messages('confirm-erasure', { ...work, places: ['s1'] }, offline)).toContain('offline since 2027-05-30');
		const rest = done('confirm-erasure', { ...work, places: ['c1'] }, offline);
		expect(stateOn(rest, '2027-06-02')).toEqual({ steps: ['c1 erased', 's1 offline'], done: null, left: ['s1'] });
	});
});

describe('a second pair of eyes', () => {
	test('nothing counts before it, and then both stand in the record', () => {
		const reported = done('confirm-erasure', { ...work, places: ['c1', 's1'] }, withSecond());
		expect(stateOn(reported, '2027-06-05')).toEqual({
			steps: ['c1 reported', 's1 reported'],
			done: null,
			left: ['c1', 's1']
		});
		expect(reported.document.privacy?.templates?.[0]?.erasures ?? []).toEqual([]);
		const second = { orders: ['E-1'], places: ['c1'], decision: 'confirmed', on: '2027-06-03', by: 'Nora' };
		const seen = done('second-erasure', second, reported);
		expect(seen.document.privacy?.templates?.[0]?.erasures).toEqual([
			{ from: 'c1', on: '2027-06-02', by: 'Otto', evidence: 'log 7', secondBy: 'Nora', secondOn: '2027-06-03' }
		]);
		expect(stateOn(seen, '2027-06-05').left).toEqual(['s1']);
		const back = done('second-erasure', { ...second, places: ['s1'], decision: 'sent-back' }, seen);
		expect(stateOn(back, '2027-06-05').steps).toEqual(['c1 erased', 's1 open']);
	});

	test.each(['Otto', ' OTTO ', 'Ótto'])('is another person than the first: not %s', (by) => {
		const reported = done('confirm-erasure', { ...work, places: ['c1'] }, withSecond());
		const second = { orders: ['E-1'], places: ['c1'], decision: 'confirmed', on: '2027-06-03', by };
		expect(messages('second-erasure', second, reported)).toContain('somebody else than Otto');
	});

	test('is not passed by where a template is entered or one of its fields is set', () => {
		const before = withSecond();
		const template = before.document.privacy?.templates?.[0];
		const [was, faked] = [
			{ from: 'c1', on: '2027-01-05' },
			{ from: 'c1', on: '2027-06-02', by: 'Otto', secondBy: 'Nora' }
		];
		const put = (entry: object, at: number | null = 0) => ({ collection: 'templates', at, entry });
		const set = (key: string, value: unknown) => ({ collection: 'templates', at: 0, path: [key], value });
		expect(messages('put-entry', put({ ...template, erasures: [faked] }), before)).toContain('two people confirm');
		expect(refusals('put-entry', put({ ...template, erasures: [faked] }), before)).toEqual(['$.entry.erasures[0]']);
		expect(refusals('put-entry', put({ ...template, erasures: [faked] }, null), before)).toEqual([
			'$.entry.erasures[0]'
		]);
		expect(refusals('put-entry', put({ ...template, storedOn: ['s1'] }), before)).toEqual(['$.entry.storedOn']);
		expect(refusals('set-field', set('erasures', [faked]), before)).toEqual(['$.value']);
		expect(refusals('set-field', set('storedOn', ['c1']), before)).toEqual(['$.value']);
		// What is no erasure is entered as ever, and a whole document may be put back.
		expect(done('put-entry', put({ ...template, lastUsedOn: '2027-05-01' }), before).what).toContain('changed');
		expect(done('set-field', set('storedOn', ['c1', 's1', 's2']), before).what).toContain('storedOn');
		const document = {
			...before.document,
			privacy: { ...before.document.privacy, templates: [{ ...template, erasures: [was] }] }
		};
		const early = done('replace-document', { document }, before);
		expect(refusals('set-field', set('enrolledOn', '2027-01-04'), early)).toEqual(['$.value']);
		expect(done('set-field', set('erasures', null), early).what).toContain('erasures');
	});

	test('looks at what was reported, not before it was, and cannot be passed by', () => {
		const reported = done('confirm-erasure', { ...work, places: ['c1'] }, withSecond());
		const second = { orders: ['E-1'], decision: 'confirmed', on: '2027-06-01', by: 'Nora' };
		expect(refusals('second-erasure', { ...second, places: ['s1', 'c1'] }, reported)).toEqual([
			'$.places[0] (c1?)',
			'$.on'
		]);
		expect(refusals('confirm-erasure', { ...work, places: ['c1'] }, reported)).toEqual(['$.places[0]']);
		expect(messages('record-erasure', { person: '1001', on: '2027-06-02' }, reported)).toContain('two people');
	});
});

test('nothing is done in the future: where today is known, also inside of several edits', () => {
	const before = opened();
	const today = localDate('2027-06-01');
	const params = { ...work, places: ['c1'] };
	const refused = applyEdit(before, 'confirm-erasure', params, today);
	expect(refused).toMatchObject({ ok: false, faults: [{ path: '$.on', value: '2027-06-02' }] });
	const several = applyEdit(before, 'all-of', { edits: [{ edit: 'confirm-erasure', params }] }, today);
	expect(several).toMatchObject({ ok: false, faults: [{ path: '$.edits[0].params.on' }] });
	expect(applyEdit(before, 'confirm-erasure', params, localDate('2027-06-02')).ok).toBe(true);
	expect(applyEdit(site(), 'record-erasure', { person: '1001', on: '2027-06-02' }, today).ok).toBe(false);
});

test('a renamed place takes along what is told of it, and what was reported there', () => {
	const told = done('put-entry', { collection: 'templatePlaces', entry: { id: 'c1', copies: ['s1'] } }, withSecond());
	const reported = done('confirm-erasure', { ...work, places: ['c1'] }, told);
	const { document } = done('rename-entry', { collection: 'controllers', at: 'c1', to: 'c7' }, reported);
	expect(document.privacy?.places?.[0]?.id).toBe('c7');
	expect(document.privacy?.erasureOrders?.[0]?.reports?.[0]?.from).toBe('c7');
	expect(document.privacy?.templates?.[0]?.storedOn).toEqual(['c7', 's1']);
});

test('a template that is left somewhere is not removed past the second person, alone or among other changes', () => {
	const removal = { collection: 'templates', at: 0 };
	const before = withSecond();
	expect(messages('remove-entry', removal, before)).toContain('left on c1, s1');
	expect(refusals('all-of', { edits: [{ edit: 'remove-entry', params: removal }] }, before)).toHaveLength(1);
	expect(done('remove-entry', removal).document.privacy?.templates).toHaveLength(
		(site().document.privacy?.templates?.length ?? 0) - 1
	);
});
