import { describe, expect, test } from 'vitest';
import { bytesOf, lines, readRoster } from '../../../../tests/support/read-roster';
import { importRoster } from './import-roster';

describe('a map', () => {
	const list = lines('Nr,Wer,Wo,Seit', '1001,Ana,Packing,03/04/2020', '1002,Ben,Office,05/06/2021');

	test('overrules what is recognized', () => {
		const map = { columns: { Nr: 'id', wer: 'name', Wo: 'department', Seit: 'startsOn' }, dateOrder: 'month-first' };
		const answer = readRoster(list, { map });
		expect(answer.columns.map(({ field, sure }) => [field, sure])).toEqual([
			['id', 1],
			['name', 1],
			['department', 1],
			['startsOn', 1]
		]);
		expect(answer.people.map(({ startsOn }) => startsOn)).toEqual(['2020-03-04', '2021-05-06']);
		expect(answer.problems).toEqual([]);
	});

	test('can leave a column aside', () => {
		const answer = readRoster(lines('ID,Name,Department', '1001,Ana,Packing'), {
			map: { columns: { Department: null } }
		});
		expect(answer.people).toEqual([{ id: '1001', name: 'Ana' }]);
	});

	test('gives the encoding and the delimiter', () => {
		const answer = readRoster(
			'ID^Name^Department\n1001^Łucja^Packing\n',
			{ map: { encoding: 'Latin2', delimiter: '^' } },
			'iso-8859-2'
		);
		expect(answer).toMatchObject({ encoding: 'iso-8859-2', delimiter: '^', people: [{ name: 'Łucja' }] });
	});

	test('two columns for the name are joined, the given one first', () => {
		const answer = readRoster(lines('Nr,Nachname,Vorname,Wo', '1001,Ruiz,Ana,Packing'), {
			map: { columns: { Nachname: 'name', Vorname: 'name' } }
		});
		expect(answer.people[0]?.name).toBe('Ana Ruiz');
	});

	test('is refused with every fault', () => {
		const map = {
			columns: { Nr: 'idd', Wer: 'name', Wo: 'name' },
			dateOrder: 'day first',
			encoding: 'utf-9',
			delimiter: ';;',
			sheets: 'x'
		};
		const result = importRoster(bytesOf(list), { map });
		expect(result.ok ? [] : result.faults.map(({ path, nearest }) => [path, nearest])).toEqual([
			['$.columns.Nr', 'id'],
			['$.dateOrder', 'day-first'],
			['$.encoding', undefined],
			['$.delimiter', undefined],
			['$.sheets', 'sheet']
		]);
	});

	test('is refused when a header is not there, or two columns are to hold one field', () => {
		const missing = importRoster(bytesOf(list), {
			map: { columns: { Nummer: 'id', Wer: 'name', Sei: 'startsOn', Weg: null } }
		});
		expect(missing.ok ? [] : missing.faults.map(({ path, nearest }) => [path, nearest])).toEqual([
			['$.columns.Nummer', undefined],
			['$.columns.Sei', 'Seit']
		]);
		const twice = importRoster(bytesOf(list), { map: { columns: { Nr: 'id', Wer: 'id' } } });
		expect(twice.ok ? [] : twice.faults.map(({ path }) => path)).toEqual(['$.columns.Wer']);
	});
});
