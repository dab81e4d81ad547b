import { describe, expect, test } from 'vitest';
import { importRoster } from '../import-roster';
import type { RosterAnswer } from '../roster-answer';
import {
	type RawSheet,
	type RawWorkbook,
	formula,
	styled,
	workbookBytes
} from '../../../../../tests/support/workbooks';
import { told } from '../../../../../tests/support/read-roster';

const read = (book: RawWorkbook, map?: unknown): RosterAnswer => {
	const result = importRoster(workbookBytes(book), { map });
	if (!result.ok) throw new Error(result.faults.map(({ message }) => message).join('\n'));
	return result.value;
};
const faultOf = (bytes: Uint8Array, map?: unknown): string => {
	const result = importRoster(bytes, { map });
	return result.ok ? 'read' : result.faults.map(({ path, message }) => `${path} ${message}`).join('\n');
};
const header = ['Pers.-Nr.', 'Name', 'Abteilung', 'Eintritt'];
const staff: RawSheet = { name: 'Personal', rows: [header, ['00123', 'Ana Ruiz', 'Lager', '2020-01-02']] };

test('a workbook names its sheet where text names its delimiter', () => {
	const { encoding, delimiter, sheet, people } = read({ sheets: [staff] });
	expect({ encoding, delimiter, sheet }).toEqual({ encoding: 'utf-8', delimiter: undefined, sheet: 'Personal' });
	expect(people).toEqual([{ id: '00123', name: 'Ana Ruiz', department: 'Lager', startsOn: '2020-01-02' }]);
});

describe('dates (ECMA-376 part 1, 18.17.4.1)', () => {
	const dates = (date1904: boolean, ...serials: number[]): (string | null | undefined)[] =>
		read({
			date1904,
			formats: [14],
			sheets: [{ rows: [header, ...serials.map((serial, index) => [100 + index, 'Ana', 'Lager', styled(serial, 1)])] }]
		}).people.map(({ startsOn }) => startsOn);
	test('in the system of 1900, whose 29 February is none', () => {
		expect(dates(false, 46391, 1, 59, 60, 61, 36526)).toEqual([
			'2027-01-04',
			'1900-01-01',
			'1900-02-28',
			null,
			'1900-03-01',
			'2000-01-01'
		]);
	});
	test('in the system of 1904', () => {
		expect(dates(true, 44929, 0, 35064)).toEqual(['2027-01-04', '1904-01-01', '2000-01-01']);
	});
	test('with a time of day, which is passed over', () => expect(dates(false, 46391.75)).toEqual(['2027-01-04']));
	test.each([
		['dd.mm.yyyy', '2027-01-04'],
		['[$-407]d. mmmm yyyy;@', '2027-01-04'],
		['"Start" yyyy\\-mm\\-dd', '2027-01-04'],
		['mmm-yy', '2027-01-04'],
		[22, '2027-01-04'],
		[17, '2027-01-04'],
		['General', '2027-01-04'],
		['0', '2027-01-04']
	])('format %j shows one', (format, startsOn) => {
		const rows = [header, [1, 'Ana', 'Lager', styled(46391, 1)]];
		expect(read({ formats: [format], sheets: [{ rows }] }).people[0]).toMatchObject({ startsOn });
	});
	test('as text are read as text is', () => {
		const rows = [header, [1, 'Ana', 'Lager', '31.12.2026'], [2, 'Ben', 'Lager', '04.01.2027']];
		expect(read({ sheets: [{ rows }] }).people.map(({ startsOn }) => startsOn)).toEqual(['2026-12-31', '2027-01-04']);
	});
});

describe('cells', () => {
	const idOf = (cell: Parameters<typeof styled>, format: string | number) =>
		read({ formats: [format], sheets: [{ rows: [header, [styled(...cell), 'Ana', 'Lager', null]] }] }).people[0]?.id;
	test.each([
		[123, '00000', '00123'],
		[123456, '00000', '123456'],
		[1234567, '000-0000', '123-4567'],
		[42, '"E-"0000', 'E-0042'],
		[42, '[Red]0000;-0000', '0042'],
		[1001, 0, '1001'],
		[1001, '#,##0', '1001'],
		[1001, '0.00E+00', '1001']
	])('an id %s in the format %j is %s', (value, format, id) => expect(idOf([value, 1], format)).toBe(id));
	test('an id of more digits than a number keeps is damaged', () => {
		const rows = [header, [{ inside: '<v>1.23456789012345E+18</v>' }, 'Ana', 'Lager', null], [7, 'Ben', 'Lager', null]];
		const answer = read({ sheets: [{ rows }] });
		expect(told(answer)).toEqual(['2 id-damaged Pers.-Nr.']);
		expect(answer.people.map(({ id }) => id)).toEqual(['7']);
	});
	test('numbers stored as text keep their zeros', () => {
		expect(read({ sheets: [staff] }).people[0]?.id).toBe('00123');
	});
	test('formulas count by their value, and by their text where nothing was calculated', () => {
		const rows = [
			header,
			[formula('A9+1', 1001), formula('B9&" Ruiz"', 'Ana Ruiz'), 'Lager', null],
			[1002, 'Ben Ode', formula('VLOOKUP(A3,X:Y,2)', null), null]
		];
		const answer = read({ sheets: [{ rows }] });
		expect(answer.people.map(({ id, name }) => [id, name])).toEqual([
			['1001', 'Ana Ruiz'],
			['1002', 'Ben Ode']
		]);
		expect(told(answer)).toEqual(['3 formula Abteilung']);
	});
	test('a formula whose text came out empty leaves an empty cell', () => {
		const empty = (inside: string) => ({ t: 'str', inside: `<f>IF(A2="","",A2)</f>${inside}` });
		const rows = [header, [1001, 'Ana Ruiz', empty('<v></v>'), empty('<v/>')]];
		const answer = read({ sheets: [{ rows }] });
		expect(answer.people).toEqual([{ id: '1001', name: 'Ana Ruiz', department: null, startsOn: null }]);
		expect(answer.problems).toEqual([]);
	});
	test('errors are told, and nothing is read from them', () => {
		const error = (text: string) => ({ t: 'e', inside: `<v>${text}</v>` });
		const rows = [
			header,
			[1001, 'Ana', error('#N/A'), error('#REF!')],
			[error('#VALUE!'), 'Ben', 'Lager', null],
			[1003, error('#NAME?'), 'Lager', null]
		];
		const answer = read({ sheets: [{ rows }] });
		expect(told(answer)).toEqual([
			'2 value-unknown Abteilung',
			'2 date-invalid Eintritt',
			'3 id-missing Pers.-Nr.',
			'4 name-missing Name'
		]);
		expect(answer.people.map(({ name, department, startsOn }) => [name, department, startsOn])).toEqual([
			['Ana', null, null],
			[null, 'Lager', null]
		]);
	});
	test('rich text runs together, readings are left out, escapes are resolved', () => {
		const inside =
			'<is><r><t>李</t></r><r><rPr><b/></rPr><t xml:space="preserve"> 小龍</t></r><rPh sb="0" eb="1"><t>リ</t></rPh></is>';
		const rows = [header, [1, { t: 'inlineStr', inside }, 'Lager_x0041_', null]];
		expect(read({ sheets: [{ rows }] }).people[0]).toMatchObject({ name: '李 小龍', department: 'LagerA' });
	});
	test('booleans and percentages are words, and do no harm', () => {
		const rows = [
			[...header, 'Aktiv', 'Pensum'],
			[1, 'Ana', 'Lager', null, true, styled(0.5, 1)]
		];
		expect(read({ formats: [9], sheets: [{ rows }] }).problems).toEqual([]);
	});
});

describe('rows and columns', () => {
	test('rows count as the spreadsheet counts them, also those that are not written', () => {
		const rows = [['Personalliste'], null, header, null, [1, 'Ana', 'Lager', 'soon'], [], [1, 'Ben', 'Lager', null]];
		expect(told(read({ sheets: [{ rows }] }))).toEqual(['5 date-invalid Eintritt', '7 id-repeated Pers.-Nr.']);
	});
	test('short rows miss nothing, and what stands beside the list is no part of it', () => {
		const rows = [header, [1, 'Ana'], [2, 'Ben', 'Lager', null, null, null, 'call back']];
		expect(read({ sheets: [{ rows: [...rows, ...many(20)] }] }).problems).toEqual([]);
	});
	test('a value merged over rows is that of each', () => {
		const rows = [header, [1, 'Ana', 'Lager', null], [2, 'Ben', null, null], [3, 'Cem', 'Büro', null]];
		const { people } = read({ sheets: [{ rows, merges: ['C2:C3'] }] });
		expect(people.map(({ department }) => department)).toEqual(['Lager', 'Lager', 'Büro']);
	});
	test('headers over two rows, merged across and down', () => {
		const rows = [
			['Staff No.', 'Person', null, 'Employment', null],
			[null, 'First name', 'Last name', 'From', 'Until'],
			[7, 'Ana', 'Ruiz', '2020-01-02', '2027-03-04']
		];
		const { people, problems } = read({ sheets: [{ rows, merges: ['A1:A2', 'B1:C1', 'D1:E1'] }] });
		expect(people).toEqual([{ id: '7', name: 'Ana Ruiz', startsOn: '2020-01-02', leavesOn: '2027-03-04' }]);
		expect(problems).toEqual([]);
	});
	test('a name under one header merged over two columns is both', () => {
		const rows = [
			['Staff No.', 'Name', null, 'Department'],
			[7, 'Ana', 'Ruiz', 'Packing']
		];
		expect(read({ sheets: [{ rows, merges: ['B1:C1'] }] }).people[0]).toMatchObject({ name: 'Ana Ruiz' });
	});
});

describe('which sheet', () => {
	const notes: RawSheet = { name: 'Read me', rows: [['Exported on 2027-01-04'], ['by the HR system']] };
	const old: RawSheet = { name: 'Old', rows: [header, [1, 'Ana', 'Lager', null]] };
	const current: RawSheet = { name: 'Current', rows: [header, ...many(5)] };
	test('the list of people with the most rows', () => {
		const { sheet, sheets } = read({ sheets: [notes, old, current] });
		expect(sheet).toBe('Current');
		expect(sheets?.map(({ name, rows }) => [name, rows])).toEqual([
			['Read me', 0],
			['Old', 1],
			['Current', 5]
		]);
	});
	test('a hidden one only where no other is a list', () => {
		expect(read({ sheets: [{ ...current, state: 'hidden' }, old] }).sheet).toBe('Old');
		expect(read({ sheets: [notes, { ...current, state: 'veryHidden' }] }).sheet).toBe('Current');
	});
	test('the one that the map names, however it is written', () => {
		expect(read({ sheets: [old, current] }, { sheet: 'Old' }).sheet).toBe('Old');
		expect(read({ sheets: [old, current] }, { sheet: 'OLD ' }).sheet).toBe('Old');
	});
	test('a name that no sheet has is refused, with the nearest', () => {
		expect(faultOf(workbookBytes({ sheets: [old, current] }), { sheet: 'Curent' })).toMatch(/^\$\.sheet .*"Current"/);
	});
	test('a sheet without people is refused when it is named', () => {
		expect(faultOf(workbookBytes({ sheets: [notes, current] }), { sheet: 'Read me' })).toMatch(/list of people/);
	});
	test('no list of people in any', () => {
		expect(faultOf(workbookBytes({ sheets: [notes, { name: 'Empty', rows: [] }] }))).toMatch(/list of people/);
		expect(faultOf(workbookBytes({ sheets: [{ rows: [] }] }))).toMatch(/empty sheets/);
	});
});

function many(count: number): (string | number | null)[][] {
	return Array.from({ length: count }, (_, index) => [
		2000 + index,
		`Ana ${'abcdefghijklmnopqrstuvwxyz'[index]}x`,
		'Lager',
		null
	]);
}
