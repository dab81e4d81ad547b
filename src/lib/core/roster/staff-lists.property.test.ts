import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type StaffList, staffList } from '../../../../tests/support/staff-lists';
import { importRoster } from './import-roster';

const fields = {
	id: 'id',
	first: 'givenName',
	last: 'familyName',
	name: 'name',
	department: 'department',
	job: 'job',
	email: 'email',
	startsOn: 'startsOn',
	leavesOn: 'leavesOn',
	shift: 'shiftPattern',
	other: null
} as const;

function expectRead(list: StaffList): void {
	const result = importRoster(list.bytes);
	if (!result.ok) throw new Error(`${result.faults[0]?.message ?? ''}\n${list.text}`);
	const { encoding, delimiter, columns, people, problems } = result.value;
	const shown = list.text.slice(0, 2000);
	expect([encoding, delimiter], shown).toEqual([list.encoding, list.delimiter]);
	expect(
		columns.map(({ field }) => field),
		shown
	).toEqual(list.columns.map(({ key }) => fields[key]));

	const orderUnknown = problems.filter(({ code }) => code === 'date-order-unknown').map(({ column }) => column);
	const headerOf = (key: string) => list.columns.find((column) => column.key === key)?.header;
	expect(orderUnknown.toSorted(), shown).toEqual(list.undecided.map(headerOf).toSorted());
	// Where a date is not known, nobody can tell that it lies before another.
	const isLeft = (told: string) => !(list.undecided.length > 0 && told.endsWith('leaves-before-start'));
	const told = problems
		.filter(({ code }) => code !== 'date-order-unknown' && code !== 'same-person')
		.map(({ row, code }) => `${row} ${code}`);
	expect(told.filter(isLeft).toSorted(), shown).toEqual(list.problems.filter(isLeft).toSorted());

	const has = (key: string) => list.columns.some((column) => column.key === key);
	expect(
		people.map(({ id }) => id),
		shown
	).toEqual(list.people.map(({ id }) => id));
	for (const [index, person] of people.entries()) {
		const expected = list.people[index];
		if (expected === undefined) continue;
		expect(person.name, shown).toBe(expected.name);
		expect(person.department, shown).toBe(expected.department);
		for (const key of ['job', 'email'] as const) if (has(key)) expect(person[key] ?? '', shown).toBe(expected[key]);
		if (has('shift')) expect(person.shiftPattern, shown).toBe(expected.shift);
		for (const key of ['startsOn', 'leavesOn'] as const) {
			if (has(key) && !list.undecided.includes(key)) expect(person[key] ?? '', shown).toBe(expected[key]);
		}
	}
}

test('staff lists of five countries, in the encodings and habits of each, are read as they were meant', () => {
	fc.assert(
		fc.property(fc.nat(), (seed) => expectRead(staffList(seed))),
		{ numRuns: 300, endOnFailure: true }
	);
});
