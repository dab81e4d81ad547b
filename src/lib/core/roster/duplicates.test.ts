import { describe, expect, test } from 'vitest';
import { bytesOf, lines, told } from '../../../../tests/support/read-roster';
import { rolloutSchema } from '../document/schema';
import { duplicatesOf } from './duplicates';
import { type ImportOptions, readRoster } from './import-roster';
import { oddRowsOf } from './odd-rows';

function reading(text: string, options: ImportOptions = {}) {
	const read = readRoster(bytesOf(text), options);
	if (!read.ok) throw new Error(read.faults.map(({ message }) => message).join('\n'));
	return read.value;
}

const into = rolloutSchema.parse({
	format: 'doorwright.rollout',
	version: 1,
	site: { name: 'Larkfen', timeZone: 'America/Chicago' },
	horizon: { from: '2027-01-04', until: '2027-12-31' },
	people: [{ id: '0017', name: 'Ana Ruiz', department: 'Dock', startsOn: '2020-02-01' }]
});

describe('duplicates', () => {
	const text = lines(
		'id,name,department,start date,email',
		'1,Ana Ruiz,Dock,2020-02-01,ana@site.example',
		'2,Ben Ode,Office,2021-04-03,ben@site.example',
		'1,Cem Kaya,Dock,2022-06-05,cem@site.example',
		'9,Ben Ode,Office,2021-04-03,ben@site.example',
		'1,Dan Moe,Dock,2022-06-05,dan@site.example'
	);

	test('rows with one number stand together, a person under two numbers too', () => {
		const { columns, found, count } = duplicatesOf(reading(text), undefined, 10);
		expect(columns.map(({ header }) => header)).toEqual(['id', 'name', 'department', 'start date', 'email']);
		expect(found.map(({ kind, sides }) => [kind, sides.map(({ row, id, texts }) => [row, id, texts[1]])])).toEqual([
			[
				'one-number',
				[
					[2, '1', 'Ana Ruiz'],
					[4, '1', 'Cem Kaya'],
					[6, '1', 'Dan Moe']
				]
			],
			[
				'one-person',
				[
					[3, '2', 'Ben Ode'],
					[5, '9', 'Ben Ode']
				]
			]
		]);
		expect(count).toBe(2);
		expect(duplicatesOf(reading(text), undefined, 1)).toMatchObject({ count: 2, found: { length: 1 } });
	});

	test('a row that is left out gives its number to another, and pairs that are apart are not asked again', () => {
		const corrections = [2, 6].map((row) => ({ row, isLeftOut: true as const }));
		const { answer } = reading(text, { corrections, apart: [['9', '2']] });
		expect(answer.people.map(({ id, name }) => [id, name])).toEqual([
			['2', 'Ben Ode'],
			['1', 'Cem Kaya'],
			['9', 'Ben Ode']
		]);
		expect(told(answer)).toEqual([]);
	});

	test('somebody with another number now is beside the person of the site who is missing', () => {
		const list = lines(
			'id,name,department,start date',
			'8001,Ana Ruiz,Dock,2020-02-01',
			'8002,Ben Ode,Office,2021-04-03'
		);
		const [pair] = duplicatesOf(reading(list, { into }), into, 10).found;
		expect(pair?.sides).toEqual([
			{ row: null, id: '0017', texts: ['0017', 'Ana Ruiz', 'Dock', '2020-02-01'] },
			{ row: 2, id: '8001', texts: ['8001', 'Ana Ruiz', 'Dock', '2020-02-01'] }
		]);
		const kept = reading(list, { into, corrections: [{ row: 2, column: 'id', value: '0017' }] });
		expect(kept.answer.changes).toMatchObject({ joined: ['8002'], left: [], unchanged: ['0017'] });
	});
});

describe('rows with the wrong number of cells', () => {
	const text = lines(
		'id,name,department,start date',
		'1,Ana Ruiz,Dock,2020-02-01',
		'2,Ben Ode,Office,2021-04-03',
		'3,Kaya, Cem,Dock,2022-06-05',
		'4,2023-01-02',
		'5,Dan Moe,2022-06-05',
		'6,,Eva Lind,Dock,2022-06-05'
	);

	test('are offered in the one way in which they fit, or as they stand', () => {
		const { headers, found } = oddRowsOf(reading(text), 10);
		expect(headers).toEqual(['id', 'name', 'department', 'start date']);
		expect(found).toEqual([
			{
				row: 4,
				cells: ['3', 'Kaya', 'Cem', 'Dock', '2022-06-05'],
				suggested: ['3', 'Kaya, Cem', 'Dock', '2022-06-05']
			},
			{ row: 5, cells: ['4', '2023-01-02'], suggested: ['4', '', '', '2023-01-02'] },
			{ row: 6, cells: ['5', 'Dan Moe', '2022-06-05'], suggested: ['5', 'Dan Moe', '', '2022-06-05'] },
			{
				row: 7,
				cells: ['6', '', 'Eva Lind', 'Dock', '2022-06-05'],
				suggested: ['6', 'Eva Lind', 'Dock', '2022-06-05']
			}
		]);
	});

	test('are read once they are put anew; more cells than the header are refused', () => {
		const cells = ['3', 'Cem Kaya', 'Dock', '2022-06-05'];
		const corrections = [
			{ row: 4, cells },
			{ row: 5, cells: ['4', 'Eva Moe', 'Dock', '2023-01-02'] }
		];
		const { answer } = reading(text, { corrections });
		expect(answer.people.map(({ id, name }) => [id, name])).toEqual([
			['1', 'Ana Ruiz'],
			['2', 'Ben Ode'],
			['3', 'Cem Kaya'],
			['4', 'Eva Moe']
		]);
		const tooMany = readRoster(bytesOf(text), { corrections: [{ row: 4, cells: [...cells, 'x'] }] });
		expect(tooMany.ok ? [] : tooMany.faults.map(({ path }) => path)).toEqual(['$.corrections[0].cells']);
	});
});

test('reading tells how far it is, and ends without an answer when it is stopped', () => {
	const told: number[] = [];
	const work = { report: (done: number) => void told.push(done), isCancelled: () => false, secondsSpent: () => 0 };
	reading(lines('id,name', '1,Ana', '2,Ben'), { work });
	expect(told).toEqual(told.toSorted((a, b) => a - b));
	expect(told.at(-1)).toBe(100);
	const stopped = readRoster(bytesOf(lines('id,name', '1,Ana')), { work: { ...work, isCancelled: () => true } });
	expect(stopped.ok ? '' : stopped.faults[0]?.expected).toContain('stopped');
});
