import iconv from 'iconv-lite';
import { describe, expect, test } from 'vitest';
import { type Rollout, rolloutSchema } from '../document/schema';
import { type ImportOptions, importRoster } from './import-roster';
import type { RosterAnswer } from './roster-answer';
import { problemCodes } from './problem';

const bytesOf = (text: string, encoding = 'utf8') => new Uint8Array(iconv.encode(text, encoding));

function read(text: string, options: ImportOptions = {}, encoding = 'utf8'): RosterAnswer {
	const result = importRoster(bytesOf(text, encoding), options);
	if (!result.ok) throw new Error(result.faults.map(({ message }) => message).join('\n'));
	return result.value;
}

/** What was told, as `row code column`. */
const told = (answer: RosterAnswer) =>
	answer.problems.map(({ row, code, column }) => `${row} ${code} ${column ?? '-'}`);
const fieldsOf = ({ columns }: RosterAnswer) => columns.map(({ field }) => field);
const lines = (...all: string[]) => `${all.join('\r\n')}\r\n`;

function rollout(more: Readonly<Record<string, unknown>>): Rollout {
	return rolloutSchema.parse({
		format: 'doorwright.rollout',
		version: 1,
		site: { name: 'Larkfen', timeZone: 'America/Chicago' },
		horizon: { from: '2027-01-04', until: '2027-12-31' },
		...more
	});
}

describe('what a roster says', () => {
	test('titles above the header, blank lines, names in two columns, dates by the column’s own evidence', () => {
		const answer = read(
			lines(
				'Personalliste Werk Süd;;;;;',
				'Stand: 01.02.2027;;;;;',
				'',
				'Pers.-Nr.;Name;Vorname;Abteilung;Eintritt;E-Mail',
				'00123;Müller;Jörg;Verpackung;03.04.2019;joerg@example.org',
				'',
				'00124;Weiß;Änne;Kühlung;15.03.2020;aenne@example.org'
			),
			{},
			'windows-1252'
		);
		expect(answer).toMatchObject({ encoding: 'windows-1252', delimiter: ';', problems: [] });
		expect(fieldsOf(answer)).toEqual(['id', 'familyName', 'givenName', 'department', 'startsOn', 'email']);
		expect(answer.people).toEqual([
			{
				id: '00123',
				name: 'Jörg Müller',
				department: 'Verpackung',
				email: 'joerg@example.org',
				startsOn: '2019-04-03'
			},
			{ id: '00124', name: 'Änne Weiß', department: 'Kühlung', email: 'aenne@example.org', startsOn: '2020-03-15' }
		]);
		expect(answer.changes).toEqual({ joined: ['00123', '00124'], moved: [], left: [], unchanged: [] });
	});

	test('columns in any order, with what is not needed left aside', () => {
		const answer = read(
			lines('Lp.|Data urodzenia|Nazwisko i imię|Nr ewid.|Dział', '1|1980-01-02|Kowalska, Ewa|0007|Magazyn')
		);
		expect(fieldsOf(answer)).toEqual([null, null, 'name', 'id', 'department']);
		expect(answer.people).toEqual([{ id: '0007', name: 'Ewa Kowalska', department: 'Magazyn' }]);
	});

	test('every field of a person', () => {
		const header =
			'id,name,department,job,email,startsOn,leavesOn,shiftPattern,workAreas,wave,captureClass,needs,language';
		const answer = read(
			lines(
				header,
				'1001,Ana Ruiz,Packing,Operator,ana@example.org,2026-02-01,2027-03-31,early,packing; lobby,w1,worn,step-free,en'
			)
		);
		expect(fieldsOf(answer)).toEqual(header.split(','));
		expect(answer.people).toEqual([
			{
				id: '1001',
				name: 'Ana Ruiz',
				department: 'Packing',
				job: 'Operator',
				email: 'ana@example.org',
				startsOn: '2026-02-01',
				leavesOn: '2027-03-31',
				shiftPattern: 'early',
				workAreas: ['packing', 'lobby'],
				wave: 'w1',
				captureClass: 'worn',
				needs: ['step-free'],
				language: 'en'
			}
		]);
		expect(answer.problems).toEqual([]);
	});

	test('a header of an unknown language, told by the cells', () => {
		const answer = read(
			lines('Matrikelkod,Benämning,Postlåda', 'A17,Ana Ruiz,ana@example.org', 'B22,Ben Ode,ben@example.org')
		);
		expect(fieldsOf(answer)).toEqual(['id', 'name', 'email']);
	});

	test('a list without a header has the letters of a spreadsheet for headers', () => {
		const answer = read(lines('A17,Ana Ruiz,ana@example.org', 'B22,Ben Ode,ben@example.org'));
		expect(answer.columns.map(({ header, field }) => [header, field])).toEqual([
			['A', 'id'],
			['B', 'name'],
			['C', 'email']
		]);
		expect(answer.people.length).toBe(2);
	});

	test('a manager, a birthday and a private address are nobody’s in the row', () => {
		const answer = read(
			lines('ID,Name,Manager,Manager e-mail,Date of birth', '1001,Ana Ruiz,Ben Ode,ben@example.org,1980-01-02')
		);
		expect(fieldsOf(answer)).toEqual(['id', 'name', null, null, null]);
	});

	test('a date without a header that says which is not taken for one', () => {
		const answer = read(lines('ID,Name,Datum', '1001,Ana Ruiz,2020-01-02'));
		expect(fieldsOf(answer)).toEqual(['id', 'name', null]);
	});

	test('a declared delimiter is believed and counts as a row', () => {
		const answer = read(lines('sep=;', 'ID;Name;Dept', ';Ana Ruiz;Packing'));
		expect(answer.delimiter).toBe(';');
		expect(told(answer)).toEqual(['3 id-missing ID']);
	});

	test('lines that are each in quotes are read as the list they were', () => {
		const answer = read(lines('"ID,Name,Department"', '"1001,""Ruiz, Ana"",Packing"', '"1002,Ben Ode,Office"'));
		expect(answer.people.map(({ name }) => name)).toEqual(['Ruiz, Ana', 'Ben Ode']);
	});

	test('two Spanish family names, a cell over two lines, an open end of employment', () => {
		const answer = read(
			lines(
				'Legajo;Nombre;Primer apellido;Segundo apellido;Puesto;Fecha de baja',
				'007;Íñigo;Núñez;Peña;"Operario\nde cámara";indefinido'
			)
		);
		expect(answer.people).toEqual([
			{ id: '007', name: 'Íñigo Núñez Peña', job: 'Operario\nde cámara', leavesOn: null }
		]);
		expect(answer.problems).toEqual([]);
	});
});

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
		const answer = read(lines(...list));
		expect(told(answer)).toEqual(expected);
		expect(answer.people.map(({ id }) => id)).toEqual(kept);
		for (const { message } of answer.problems) expect(message).toMatch(/^[A-Z\d].*\.$/s);
	});

	test('every code of the contract has a case', () => {
		const others = ['value-unknown', 'encoding-doubtful'];
		expect([...Object.keys(cases), ...others].sort()).toEqual([...problemCodes].sort());
	});

	test('a cell that cannot be read is null and told with what stands there', () => {
		const answer = read(lines('id,name,Eintritt', '1001,Ana,31.02.2027', '1002,Ben,15.02.2027'));
		expect(answer.people[0]).toEqual({ id: '1001', name: 'Ana', startsOn: null });
		expect(answer.problems).toMatchObject([{ row: 2, column: 'Eintritt', code: 'date-invalid', value: '31.02.2027' }]);
	});

	test('rows are counted as a spreadsheet does', () => {
		const answer = read(lines('Staff', '', 'id,name,dept', '1001,"Ana\r\nRuiz",Packing', '', ',Ben,Packing'));
		expect(told(answer)).toEqual(['6 id-missing id']);
	});

	test('a date in the other order of a decided column is no date', () => {
		const many = Array.from(
			{ length: 30 },
			(_, index) => `${1000 + index},Ana ${'abc'.charAt(index % 3)},${13 + (index % 10)}/03/2020`
		);
		const answer = read(lines('id,name,start date', ...many, '2000,Ben,03/13/2020', '2001,Cem,03/04/2020'));
		expect(told(answer)).toEqual(['32 date-invalid start date']);
		expect(answer.people.at(-1)?.startsOn).toBe('2020-04-03');
	});
});

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
		const answer = read(lines('id,name,dept', '1001,JÃ¶rg MÃ¼ller,Lager'));
		expect(told(answer)).toEqual(['2 encoding-doubtful name']);
		expect(answer.people[0]?.name).toBe('JÃ¶rg MÃ¼ller');
	});
});

describe('with a document', () => {
	const into = rollout({
		areas: [{ id: 'packing', name: 'Packing hall' }, { id: 'lobby' }],
		shiftPatterns: [{ id: 'early', name: 'Early shift', anchor: '2027-01-04', cycleDays: 7 }],
		enrollment: { waves: [{ id: 'w1', name: 'First wave' }], captureClasses: [{ id: 'standard', minutes: 8 }] },
		privacy: {
			notices: [
				{ id: 'n1', version: '1', language: 'en', publishedOn: '2026-12-01' },
				{ id: 'n2', version: '1', language: 'de', publishedOn: '2026-12-01' }
			]
		},
		people: [
			{
				id: '0001',
				name: 'Ana Ruiz',
				department: 'Packing',
				shiftPattern: 'early',
				wave: 'w1',
				language: 'en',
				startsOn: '2020-02-01'
			},
			{ id: '0002', name: 'Ben Ode', department: 'Office', startsOn: '2021-04-03' },
			{ id: '0003', name: 'Cem Kaya', department: 'Packing', startsOn: '2022-06-05' },
			{ id: '0004', name: 'Dan Moe', department: 'Packing' }
		]
	});

	test('joined, moved field by field, left, unchanged', () => {
		const answer = read(
			lines(
				'id,name,department,shift',
				'0001,Ana Ruiz,Packing,Early shift',
				'0002,Ben Ode,Packing,',
				'0005,Eva Moe,Office,early'
			),
			{ into }
		);
		expect(answer.changes).toEqual({
			joined: ['0005'],
			moved: [{ person: '0002', fields: { department: ['Office', 'Packing'] } }],
			left: ['0003', '0004'],
			unchanged: ['0001']
		});
		expect(answer.people.map(({ shiftPattern }) => shiftPattern)).toEqual(['early', null, 'early']);
	});

	test('value-unknown: the nearest is offered; what must exist is left empty and changes nothing, free words are kept', () => {
		const answer = read(
			lines('id,name,department,shift,wave,language,work areas', '0001,Ana Ruiz,Pakcing,erly,w2,pl,packing;lobyb'),
			{ into }
		);
		expect(answer.problems.map(({ code, column, value, nearest }) => [code, column, value, nearest])).toEqual([
			['value-unknown', 'department', 'Pakcing', 'Packing'],
			['value-unknown', 'shift', 'erly', 'early'],
			['value-unknown', 'wave', 'w2', 'w1'],
			['value-unknown', 'language', 'pl', undefined],
			['value-unknown', 'work areas', 'lobyb', 'lobby']
		]);
		expect(answer.people).toEqual([
			{
				id: '0001',
				name: 'Ana Ruiz',
				department: 'Pakcing',
				shiftPattern: null,
				wave: null,
				language: 'pl',
				workAreas: ['packing']
			}
		]);
		expect(answer.changes.moved).toEqual([
			{ person: '0001', fields: { department: ['Packing', 'Pakcing'], language: ['en', 'pl'] } }
		]);
	});

	test('known values are found whatever the capitals, by name and, for languages, by their names', () => {
		const answer = read(
			lines(
				'id,name,department,shift,wave,language',
				'0001,Ana Ruiz,PACKING,EARLY,First  wave,English',
				'0002,Ben Ode,office,,,Niemiecki'
			),
			{ into }
		);
		expect(answer.problems).toEqual([]);
		expect(answer.people[0]).toMatchObject({
			department: 'Packing',
			shiftPattern: 'early',
			wave: 'w1',
			language: 'en'
		});
		expect(answer.people[1]).toMatchObject({ department: 'Office', language: 'de' });
	});

	test('nobody leaves by a row that was held back', () => {
		const answer = read(lines('id,name,department', '0001,Ana Ruiz,Packing', '2,Ben Ode,Office', ',Cem Kaya,Packing'), {
			into
		});
		expect(told(answer)).toEqual(['3 id-damaged id', '4 id-missing id']);
		expect(answer.problems[0]?.nearest).toBe('0002');
		expect(answer.changes).toMatchObject({ joined: [], left: ['0004'], unchanged: ['0001'] });
	});

	test('a column that lost all its zeros is told by the ids that are known', () => {
		const answer = read(lines('id,name,department', '1,Ana Ruiz,Packing', '2,Ben Ode,Office'), { into });
		expect(told(answer)).toEqual(['2 id-damaged id', '3 id-damaged id']);
		expect(answer.changes).toMatchObject({ joined: [], left: ['0003', '0004'] });
	});

	test('somebody under a new id', () => {
		const answer = read(
			lines('id,name,department,start date', '0001,Ana Ruiz,Packing,2020-02-01', '7001,Ben Ode,Office,2021-04-03'),
			{ into }
		);
		expect(answer.problems).toMatchObject([{ row: 3, code: 'same-person', value: '7001', nearest: '0002' }]);
	});

	test('the order of ambiguous dates is known from people who are', () => {
		const list = lines(
			'id,name,department,start date',
			'0002,Ben Ode,Office,03/04/2021',
			'0003,Cem Kaya,Packing,05/06/2022'
		);
		expect(told(read(list))).toEqual(['2 date-order-unknown start date']);
		expect(read(list, { into }).changes.unchanged).toEqual(['0002', '0003']);
	});

	test('a cell that could not be read changes nothing', () => {
		const answer = read(lines('id,name,department,start date', '0002,Ben Ode,Office,31.02.2021'), { into });
		expect(answer.changes.unchanged).toEqual(['0002']);
	});

	test('the document is not changed', () => {
		const before = structuredClone(into);
		read(lines('id,name,department', '0002,Ben Ode,Packing'), { into });
		expect(into).toEqual(before);
	});
});

describe('a map', () => {
	const list = lines('Nr,Wer,Wo,Seit', '1001,Ana,Packing,03/04/2020', '1002,Ben,Office,05/06/2021');

	test('overrules what is recognized', () => {
		const map = { columns: { Nr: 'id', wer: 'name', Wo: 'department', Seit: 'startsOn' }, dateOrder: 'month-first' };
		const answer = read(list, { map });
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
		const answer = read(lines('ID,Name,Department', '1001,Ana,Packing'), { map: { columns: { Department: null } } });
		expect(answer.people).toEqual([{ id: '1001', name: 'Ana' }]);
	});

	test('gives the encoding and the delimiter', () => {
		const answer = read(
			'ID^Name^Department\n1001^Łucja^Packing\n',
			{ map: { encoding: 'Latin2', delimiter: '^' } },
			'iso-8859-2'
		);
		expect(answer).toMatchObject({ encoding: 'iso-8859-2', delimiter: '^', people: [{ name: 'Łucja' }] });
	});

	test('two columns for the name are joined, the given one first', () => {
		const answer = read(lines('Nr,Nachname,Vorname,Wo', '1001,Ruiz,Ana,Packing'), {
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
