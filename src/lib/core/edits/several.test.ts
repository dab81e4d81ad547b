import { describe, expect, test } from 'vitest';
import { done, refusals, site } from '../../../../tests/support/edits';

const setSaturday = {
	edit: 'set-field',
	params: { collection: 'schedules', at: 'office', path: ['week', 'sat'], value: ['08:00-12:00'] }
};

describe('set-field', () => {
	test('sets one field, and leaves the rest of the entry as it is written', () => {
		const { document, what } = done('set-field', setSaturday.params);
		expect(document.schedules?.[0]).toEqual({
			id: 'office',
			week: { mon: ['07:00-19:00'], tue: [], sat: ['08:00-12:00'] },
			holidays: { public: 'closed', shutdown: ['08:00-12:00'] }
		});
		expect(what).toBe('Schedule office: week, sat changed');
	});

	test('null takes a field away; what changes nothing is the same document', () => {
		const gone = done('set-field', { collection: 'doors', at: 'main', path: ['name'], value: null });
		expect(gone.document.doors?.[0]).not.toHaveProperty('name');
		const before = site();
		const same = { collection: 'doors', at: 'main', path: ['name'], value: 'Main entrance' };
		expect(done('set-field', same, before).document.doors).toBe(before.document.doors);
	});

	test('is refused where the field has changed since, where it is the id, and where the value does not fit', () => {
		expect(refusals('set-field', { ...setSaturday.params, was: ['09:00-10:00'] })).toEqual(['$.was']);
		expect(refusals('set-field', { collection: 'doors', at: 'main', path: ['id'], value: 'x' })).toEqual(['$.path[0]']);
		expect(refusals('set-field', { ...setSaturday.params, value: ['8-12'] })).toEqual(['$.value[0]']);
		expect(refusals('set-field', { collection: 'doors', at: 'main', path: ['nmae'], value: 'x' })).toEqual([
			'$.value (name?)'
		]);
		expect(done('set-field', { ...setSaturday.params, was: null }).document.schedules).toHaveLength(1);
	});
});

describe('all-of', () => {
	const addSchedule = { edit: 'put-entry', params: { collection: 'schedules', entry: { id: 'late' } } };
	const useIt = {
		edit: 'set-field',
		params: {
			collection: 'accessProfiles',
			at: 'staff',
			path: ['entries'],
			value: [{ doorGroup: 'perimeter', schedule: 'late' }]
		}
	};

	test('makes edits that need each other, as one change', () => {
		const { rollout, what } = done('all-of', { edits: [addSchedule, useIt], what: 'Late shift let in' });
		expect(rollout.accessProfiles[0]?.entries).toEqual([{ doorGroup: 'perimeter', schedule: 'late' }]);
		expect(what).toBe('Late shift let in');
		expect(done('all-of', { edits: [addSchedule, useIt] }).what).toBe('2 changes together: put-entry, set-field');
	});

	test('makes none when one is refused, and tells at which', () => {
		const wrong = {
			edit: 'set-field',
			params: { ...useIt.params, value: [{ doorGroup: 'perimeter', schedule: 'lat' }] }
		};
		expect(refusals('all-of', { edits: [addSchedule, wrong] })).toEqual([
			'$.edits[1].params.value[0].schedule (late?)'
		]);
		expect(refusals('all-of', { edits: [addSchedule, addSchedule] })).toEqual(['$.edits[1].params.entry.id']);
		expect(refusals('all-of', { edits: [{ edit: 'put-entri', params: {} }] })).toEqual([
			'$.edits[0].edit (put-entry?)'
		]);
		expect(refusals('all-of', { edits: [{ edit: 'all-of', params: { edits: [addSchedule] } }] })).toEqual([
			'$.edits[0].edit'
		]);
		expect(refusals('all-of', { edits: [{ edit: 'put-entry', params: { collection: 'schedules' } }] })).toEqual([
			'$.edits[0].params.entry'
		]);
		expect(refusals('all-of', { edits: [] })).toEqual(['$.edits']);
	});
});
