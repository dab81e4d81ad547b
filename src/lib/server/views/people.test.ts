import { expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import { peopleRows } from './people';

const rollout = rolloutOf({
	people: [
		{ id: '2', name: 'Zoë Ånkår', department: 'Packing' },
		{ id: '10', name: 'Abel Orme', department: 'Office', job: 'Clerk' }
	]
});
const all = { find: '', department: '', wave: '', standing: '' };
const finding = { code: 'x', severity: 'error' as const, message: '', subject: { person: '2' }, dates: [], count: 1 };

test('people are found by part of a name without its accents, by job and by department', () => {
	const ids = (filter: Partial<typeof all>) => peopleRows(rollout, [], { ...all, ...filter }).map(({ id }) => id);
	expect(ids({ find: 'zoe an' })).toEqual(['2']);
	expect(ids({ find: 'CLERK' })).toEqual(['10']);
	expect(ids({ department: 'Packing' })).toEqual(['2']);
	expect(ids({ find: 'nobody' })).toEqual([]);
});

test('errors are counted by person, and rows sort by any column both ways', () => {
	expect(peopleRows(rollout, [finding, finding], all).map(({ errors }) => errors)).toEqual([2, 0]);
	const names = (isDescending: boolean) =>
		peopleRows(rollout, [], all, { key: 'name', isDescending }).map(({ name }) => name);
	expect(names(false)).toEqual(['Abel Orme', 'Zoë Ånkår']);
	expect(names(true)).toEqual(['Zoë Ånkår', 'Abel Orme']);
});
