import { describe, expect, test } from 'vitest';
import { rolloutSchema } from '../document/schema';
import { lines, readRoster } from '../../../../tests/support/read-roster';
import { type Origins, agreements, conflictKey, conflictsOf, decided, undisputed } from './origins';

const into = rolloutSchema.parse({
	format: 'doorwright.rollout',
	version: 1,
	site: { name: 'Larkfen', timeZone: 'America/Chicago' },
	horizon: { from: '2027-01-04', until: '2027-12-31' },
	people: [
		{ id: '1', name: 'Ana Ruiz', department: 'Dock', job: 'Picker' },
		{ id: '2', name: 'Ben Ode', department: 'Office' },
		{ id: '3', name: 'Cem Kaya', department: 'Office' },
		{ id: '4', name: 'Dan Moe', leavesOn: '2027-09-30' },
		{ id: '5', name: 'Eva Lind' },
		{ id: '6', name: 'Finn Roth' }
	]
});
const answer = readRoster(
	lines('id,name,department,job', '1,Ana Ruiz,Packing,Driver', '2,Ben Ode,Dock,', '3,Cem Kaya,Office,'),
	{ into }
);
const here = { by: 'here', at: '2026-11-02T08:00:00.000Z', who: 'Nora', change: 7 } as const;
const origins: Origins = {
	fields: [
		{ person: '1', field: 'department', origin: here, before: 'Packing' },
		{ person: '3', field: 'department', origin: here },
		{ person: '4', field: 'leavesOn', origin: here },
		{ person: '2', field: 'department', origin: { ...here, by: 'roster' } }
	],
	added: [{ person: '5', origin: here }],
	kept: []
};
const conflicts = conflictsOf(answer.changes, into, origins);

describe('values that were entered here', () => {
	test('are in conflict where the list differs, and nothing else is', () => {
		expect(answer.changes.left).toEqual(['4', '5', '6']);
		expect(
			conflicts.map(({ person, kind, field, here: one, roster, before }) => [person, kind, field, one, roster, before])
		).toEqual([
			['1', 'value', 'department', 'Dock', 'Packing', 'Packing'],
			['4', 'missing', 'leavesOn', '2027-09-30', null, undefined],
			['5', 'missing', 'leavesOn', null, null, undefined]
		]);
	});

	test('are never overwritten without a choice: each one is named', () => {
		const result = decided(answer, conflicts, new Map([[conflictKey({ person: '5', field: 'leavesOn' }), 'here']]));
		expect(result.ok ? [] : result.faults.map(({ path }) => path)).toEqual([
			"$.conflicts['1'].department",
			"$.conflicts['4'].leavesOn"
		]);
	});

	test('stay, or change, as it is chosen; what is not in conflict is taken over either way', () => {
		const keys = conflicts.map(conflictKey);
		const all = (choice: 'here' | 'roster') => decided(answer, conflicts, new Map(keys.map((key) => [key, choice])));
		const [kept, taken] = [all('here'), all('roster')];
		if (!kept.ok || !taken.ok) throw new Error('refused');
		expect(kept.value.changes.moved).toEqual([
			{ person: '1', fields: { job: ['Picker', 'Driver'] } },
			{ person: '2', fields: { department: ['Office', 'Dock'] } }
		]);
		expect(kept.value.changes.left).toEqual(['6']);
		expect(kept.value.kept).toContainEqual({ person: '1', field: 'department', said: 'Packing', here: 'Dock' });
		expect(taken.value.changes).toEqual(answer.changes);
		expect(taken.value.kept).toEqual([]);
		expect(undisputed(answer.changes, conflicts, new Map())).toEqual(kept.value.changes);
	});

	test('are not asked about again while the list says the same as when it was decided', () => {
		const kept = [{ person: '1', field: 'department', said: 'Packing', here: 'Dock' } as const];
		expect(conflictsOf(answer.changes, into, { ...origins, kept })[0]?.isKept).toBe(true);
		const other = kept.map((one) => ({ ...one, said: 'Office' }));
		expect(conflictsOf(answer.changes, into, { ...origins, kept: other })[0]?.isKept).toBe(false);
	});

	test('are the list’s own once it agreed with them, or had written the same', () => {
		const agreed = agreements(answer.people, into, origins);
		expect(agreed).toEqual([{ person: '3', field: 'department', said: 'Office', here: 'Office' }]);
		const later = readRoster(lines('id,name,department', '3,Cem Kaya,Dock'), { into });
		const of3 = (given: Origins) => conflictsOf(later.changes, into, given).filter(({ person }) => person === '3');
		expect(of3(origins)).toHaveLength(1);
		expect(of3({ ...origins, kept: agreed })).toEqual([]);
		const same = { person: '3', field: 'department', origin: here, before: 'Office' } as const;
		expect(of3({ ...origins, fields: [same] })).toEqual([]);
	});
});
