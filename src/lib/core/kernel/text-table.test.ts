import { expect, test } from 'vitest';
import { groupBy } from './group-by';
import { textTable } from './text-table';

test('columns are as wide as their widest entry, figures end at the same place, lines carry no trailing spaces', () => {
	const columns = [{ heading: 'Door' }, { heading: 'Minutes', isFigure: true }, { heading: 'Owner' }];
	const rows = [
		['main', '5', ''],
		['côté cour', '1440', 'Facilities']
	];
	expect(textTable(columns, rows).split('\n')).toEqual([
		'Door       Minutes  Owner',
		'main             5',
		'côté cour     1440  Facilities'
	]);
});

test('without rows the headings stand alone', () => {
	expect(textTable([{ heading: 'Door' }, { heading: 'Owner' }], [])).toBe('Door  Owner');
});

test('groups keep the order of entries and of first keys', () => {
	const groups = groupBy(['b1', 'a1', 'b2'], (text) => text[0]);
	expect([...groups]).toEqual([
		['b', ['b1', 'b2']],
		['a', ['a1']]
	]);
});
