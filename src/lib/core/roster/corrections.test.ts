import { expect, test } from 'vitest';
import { importRoster } from './import-roster';
import { bytesOf, readRoster, told } from '../../../../tests/support/read-roster';

const text = 'ID;Name;Department;Start date\n1;Ana;Dock;04/01/2027\n1;Ben;Dock;05/02/2027\n3;"Cem;Dock;06/03/2027\n';

test('a row that was held back is read once its cell is put right', () => {
	expect(told(readRoster(text))).toEqual([
		'2 date-order-unknown Start date',
		'3 id-repeated ID',
		'4 quote-broken Name'
	]);
	const answer = readRoster(text, {
		corrections: [
			{ row: 3, column: 'ID', value: '2' },
			{ row: 4, column: 'Name', value: 'Cem' }
		]
	});
	expect(answer.people.map(({ id, name }) => [id, name])).toEqual([
		['1', 'Ana'],
		['2', 'Ben'],
		['3', 'Cem']
	]);
	expect(told(answer)).toEqual(['2 date-order-unknown Start date']);
});

test('what was put right is evidence for its column', () => {
	const answer = readRoster(text, { corrections: [{ row: 4, column: 'Start date', value: '16/03/2027' }] });
	expect(answer.people.map(({ startsOn }) => startsOn)).toEqual(['2027-01-04', '2027-03-16']);
});

test('corrections of what is not there are refused, all at once', () => {
	const result = importRoster(bytesOf(text), {
		corrections: [
			{ row: 3, column: 'Nmae', value: 'Ben' },
			{ row: 1, column: 'Name', value: 'Ben' },
			{ row: 9, column: 'Name', value: 'Ben' }
		]
	});
	expect(result.ok ? [] : result.faults.map(({ path, nearest }) => [path, nearest])).toEqual([
		['$.corrections[0].column', 'Name'],
		['$.corrections[1].row', undefined],
		['$.corrections[2].row', undefined]
	]);
});
