import { describe, expect, test } from 'vitest';
import { bytesOf, lines, readRoster, told } from '../../../../tests/support/read-roster';
import { importRoster } from './import-roster';
import { problemCodes } from './problem';

describe('problems', () => {
	const cases: Record<string, { list: string[]; told: string[]; kept: string[] }> = {
		'id-missing': {
			list: ['id,name,dept', ',Ana,Packing', '1002,Ben,Packing'],
			told: ['2 id-missing id'],
			kept: ['1002']
		},
		'name-missing': {
			list: ['id,name,dept', '1001,,Packing', '1002,Ben,Packing'],
			told: ['2 name-missing name'],
			kept: ['1001', '1002']
		},
		'id-repeated': {
			list: ['id,name,dept', '1001,Ana,Packing', '1002,Ben,Packing', '1001,Cem,Office'],
			told: ['4 id-repeated id'],
			kept: ['1001', '1002']
		},
		'id-damaged': {
			list: ['id,name,dept', '00123,Ana,Packing', '456,Ben,Packing', '1.00E+05,Cem,Office', '12345,Dan,Office'],
			told: ['3 id-damaged id', '4 id-damaged id'],
			kept: ['00123', '12345']
		},
		'same-person': {
			list: [
				'id,name,dept,start date',
				'1,Ana Ruiz,Packing,2020-01-02',
				'2,Ana Ruiz,Office,2021-01-02',
				'3,ana ruiz,Packing,2020-01-02'
			],
			told: ['4 same-person id'],
			kept: ['1', '2', '3']
		},
		'date-order-unknown': {
			list: [
				'id,name,start date',
				'1001,Ana,03/04/2020',
				'1002,Ben,05/06/2021',
				'1003,Cem,2021-06-05',
				'1004,Dan,7/7/2021'
			],
			told: ['2 date-order-unknown start date'],
			kept: ['1001', '1002', '1003', '1004']
		},
		'date-invalid': {
			list: ['id,name,start date', '1001,Ana,31.02.2027', '1002,Ben,15.03.2020', '1003,Cem,soon', '1004,Dan,03.04.65'],
			told: ['2 date-invalid start date', '4 date-invalid start date', '5 date-invalid start date'],
			kept: ['1001', '1002', '1003', '1004']
		},
		'leaves-before-start': {
			list: ['id,name,start date,end date', '1001,Ana,2027-02-01,2027-01-31', '1002,Ben,2027-02-01,2027-02-01'],
			told: ['2 leaves-before-start end date'],
			kept: ['1001', '1002']
		},
		'email-invalid': {
			list: ['id,name,email', '1001,Ana,ana@', '1002,Ben,ben@example.org', '1003,Cem,', '1004,Dan,n/a'],
			told: ['2 email-invalid email'],
			kept: ['1001', '1002', '1003', '1004']
		},
		formula: {
			list: ['id,name,dept,phone', '1001,=1+1,Packing,+49 30 1234567', '1002,Ben,@SUM(A1),-5', '1003,Cem,-2+3,=2'],
			told: ['2 formula name', '3 formula dept', '4 formula dept', '4 formula phone'],
			kept: ['1001', '1002', '1003']
		},
		'cells-too-many': {
			list: [
				'id,name,dept,start date',
				'1001,Ana,Packing,2020-01-02,x',
				'1002,Ode, Ben,Packing,2020-01-02',
				'1003,Cem,Packing,2020-01-02,'
			],
			told: ['2 cells-too-many -', '3 cells-too-many -'],
			kept: ['1001', '1003']
		},
		'cells-too-few': {
			list: ['id,name,dept,start date', '1001,Ana', '1002,Ben,2020-01-02', '1003,Cem,Packing,2020-01-02'],
			told: ['2 cells-too-few -', '3 cells-too-few -'],
			kept: ['1001', '1003']
		},
		'quote-broken': {
			list: [
				'id,name,dept',
				'1001,"Ana "A" Ruiz",Packing',
				'1002,Ben 5" Ode,Packing',
				'1003,"Cem,Packing',
				'1004,"Dan, D.",Packing'
			],
			told: ['2 quote-broken name', '3 quote-broken name', '4 quote-broken name'],
			kept: ['1001', '1002', '1003', '1004']
		},
		'cell-too-long': {
			list: [
				'id,name,dept,notes',
				`1001,${'a'.repeat(1001)},Packing,`,
				`1002,Ben,Packing,${'b'.repeat(32_768)}`,
				`${'9'.repeat(65)},Cem,Packing,`
			],
			told: ['2 cell-too-long name', '3 cell-too-long notes', '4 cell-too-long id'],
			kept: ['1001', '1002']
		},
		'header-repeated': {
			list: ['Staff list,,', 'id,name,dept', '1001,Ana,Packing', 'Staff list,,', 'ID,Name,Dept', '1002,Ben,Packing'],
			told: ['4 header-repeated -', '5 header-repeated -'],
			kept: ['1001', '1002']
		},
		'total-row': {
			list: [
				'id,name,dept',
				'Packing,,',
				'1001,Ana,Packing',
				'Subtotal: 1,,',
				'1002,Total,Packing',
				',Total,2',
				'Printed on 1 Feb 2027,,',
				',,'
			],
			told: ['2 total-row -', '4 total-row -', '6 total-row -', '7 total-row -'],
			kept: ['1001', '1002']
		}
	};
	test.each(Object.entries(cases))('%s', (_, { list, told: expected, kept }) => {
		const answer = readRoster(lines(...list));
		expect(told(answer)).toEqual(expected);
		expect(answer.people.map(({ id }) => id)).toEqual(kept);
		for (const { message } of answer.problems) expect(message).toMatch(/^[A-Z\d].*\.$/s);
	});

	test('every code of the contract has a case', () => {
		const others = ['value-unknown', 'encoding-doubtful'];
		expect([...Object.keys(cases), ...others].sort()).toEqual([...problemCodes].sort());
	});

	test('a cell that cannot be read is null and told with what stands there', () => {
		const answer = readRoster(lines('id,name,Eintritt', '1001,Ana,31.02.2027', '1002,Ben,15.02.2027'));
		expect(answer.people[0]).toEqual({ id: '1001', name: 'Ana', startsOn: null });
		expect(answer.problems).toMatchObject([{ row: 2, column: 'Eintritt', code: 'date-invalid', value: '31.02.2027' }]);
	});

	test('rows are counted as a spreadsheet does', () => {
		const answer = readRoster(lines('Staff', '', 'id,name,dept', '1001,"Ana\r\nRuiz",Packing', '', ',Ben,Packing'));
		expect(told(answer)).toEqual(['6 id-missing id']);
	});

	test('a date in the other order of a decided column is no date', () => {
		const many = Array.from(
			{ length: 30 },
			(_, index) => `${1000 + index},Ana ${'abc'.charAt(index % 3)},${13 + (index % 10)}/03/2020`
		);
		const answer = readRoster(lines('id,name,start date', ...many, '2000,Ben,03/13/2020', '2001,Cem,03/04/2020'));
		expect(told(answer)).toEqual(['32 date-invalid start date']);
		expect(answer.people.at(-1)?.startsOn).toBe('2020-04-03');
	});
});

test('a line end inside of an id holds its row back: the document takes no such id', () => {
	const answer = readRoster('ID,Name\n"1\n2",Ana\n3,Ben\n');
	expect(told(answer)).toEqual(['2 id-damaged ID']);
	expect(answer.people.map(({ id }) => id)).toEqual(['3']);
});

test('several ids that a spreadsheet made alike are each damaged: none of them is taken, so none is repeated', () => {
	const answer = readRoster(lines('ID,Name', '100001,Ana', '1.00E+05,Ben', '1.00E+05,Cem', '100001,Dan'));
	expect(told(answer)).toEqual(['3 id-damaged ID', '4 id-damaged ID', '5 id-repeated ID']);
	expect(answer.people.map(({ id }) => id)).toEqual(['100001']);
});

test.each(['yes', 'Ja', 'oui', 'sí', 'TAK', 'x'])(
	'a need that is only said to be there (%s) is asked, not taken as its name',
	(word) => {
		const answer = readRoster(lines('ID,Name,Needs', `1,Ana,${word}`, '2,Ben,no', '3,Cid,step-free'));
		expect(told(answer)).toEqual(['2 value-unknown Needs']);
		expect(answer.people.map(({ needs }) => needs)).toEqual([[], [], ['step-free']]);
	}
);

describe('encoding-doubtful', () => {
	test('one byte that UTF-8 does not explain: the cell is told and left empty, the others are read', () => {
		const good = bytesOf('id,name,dept\n1001,Zoë Ruiz,Kühlung\n1002,Jos');
		const bytes = new Uint8Array([...good, 0xe9, ...bytesOf(',Kühlung\n')]);
		const result = importRoster(bytes);
		if (!result.ok) throw new Error('refused');
		expect(result.value.encoding).toBe('utf-8');
		expect(result.value.problems).toMatchObject([{ row: 3, column: 'name', code: 'encoding-doubtful', value: 'José' }]);
		expect(result.value.people.map(({ name }) => name)).toEqual(['Zoë Ruiz', null]);
	});

	test('in an id it holds the row back', () => {
		const bytes = new Uint8Array([...bytesOf('id,name,dept\nä1,Zoë,Kühlung\nö'), 0xff, ...bytesOf(',Ana,Kühlung\n')]);
		const result = importRoster(bytes);
		expect(result.ok && result.value.people.map(({ id }) => id)).toEqual(['ä1']);
	});

	test('a byte that windows-1252 has no character for', () => {
		const bytes = new Uint8Array([
			...bytesOf('id,name,dept\n1001,Müller,Kühlung\n1002,M', 'windows-1252'),
			0x81,
			...bytesOf('ller,Lager\n')
		]);
		const result = importRoster(bytes);
		expect(result.ok && told(result.value)).toEqual(['3 encoding-doubtful name']);
	});

	test('text that was decoded wrongly before is told and kept', () => {
		const answer = readRoster(lines('id,name,dept', '1001,JÃ¶rg MÃ¼ller,Lager'));
		expect(told(answer)).toEqual(['2 encoding-doubtful name']);
		expect(answer.people[0]?.name).toBe('JÃ¶rg MÃ¼ller');
	});
});
