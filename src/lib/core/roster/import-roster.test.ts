import { describe, expect, test } from 'vitest';
import { fieldsOf, lines, readRoster, told } from '../../../../tests/support/read-roster';

describe('what a roster says', () => {
	test('titles above the header, blank lines, names in two columns, dates by the column’s own evidence', () => {
		const answer = readRoster(
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
		const answer = readRoster(
			lines('Lp.|Data urodzenia|Nazwisko i imię|Nr ewid.|Dział', '1|1980-01-02|Kowalska, Ewa|0007|Magazyn')
		);
		expect(fieldsOf(answer)).toEqual([null, null, 'name', 'id', 'department']);
		expect(answer.people).toEqual([{ id: '0007', name: 'Ewa Kowalska', department: 'Magazyn' }]);
	});

	test('every field of a person', () => {
		const header =
			'id,name,department,job,email,startsOn,leavesOn,shiftPattern,workAreas,wave,captureClass,needs,language';
		const answer = readRoster(
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
		const answer = readRoster(
			lines('Matrikelkod,Benämning,Postlåda', 'A17,Ana Ruiz,ana@example.org', 'B22,Ben Ode,ben@example.org')
		);
		expect(fieldsOf(answer)).toEqual(['id', 'name', 'email']);
	});

	test('a list without a header has the letters of a spreadsheet for headers', () => {
		const answer = readRoster(lines('A17,Ana Ruiz,ana@example.org', 'B22,Ben Ode,ben@example.org'));
		expect(answer.columns.map(({ header, field }) => [header, field])).toEqual([
			['A', 'id'],
			['B', 'name'],
			['C', 'email']
		]);
		expect(answer.people.length).toBe(2);
	});

	test('a manager, a birthday and a private address are nobody’s in the row', () => {
		const answer = readRoster(
			lines('ID,Name,Manager,Manager e-mail,Date of birth', '1001,Ana Ruiz,Ben Ode,ben@example.org,1980-01-02')
		);
		expect(fieldsOf(answer)).toEqual(['id', 'name', null, null, null]);
	});

	test('a date without a header that says which is not taken for one', () => {
		const answer = readRoster(lines('ID,Name,Datum', '1001,Ana Ruiz,2020-01-02'));
		expect(fieldsOf(answer)).toEqual(['id', 'name', null]);
	});

	test('a declared delimiter is believed and counts as a row', () => {
		const answer = readRoster(lines('sep=;', 'ID;Name;Dept', ';Ana Ruiz;Packing'));
		expect(answer.delimiter).toBe(';');
		expect(told(answer)).toEqual(['3 id-missing ID']);
	});

	test('lines that are each in quotes are read as the list they were', () => {
		const answer = readRoster(lines('"ID,Name,Department"', '"1001,""Ruiz, Ana"",Packing"', '"1002,Ben Ode,Office"'));
		expect(answer.people.map(({ name }) => name)).toEqual(['Ruiz, Ana', 'Ben Ode']);
	});

	test('two Spanish family names, a cell over two lines, an open end of employment', () => {
		const answer = readRoster(
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
