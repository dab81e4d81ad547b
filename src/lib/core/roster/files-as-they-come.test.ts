import { describe, expect, test } from 'vitest';
import type { RosterMap } from './roster-map';
import { bytesOf, fieldsOf, readRoster, told } from '../../../../tests/support/read-roster';
import { importRoster } from './import-roster';

/**
 * Staff lists with one habit each, and what the contract makes of them: people as `id|name|…`, the fields in the order of
 * the columns, and what is told. Everything is invented.
 */
interface Case {
	readonly text: string;
	readonly encoding?: string;
	readonly as?: { readonly encoding?: string; readonly delimiter?: string };
	readonly fields?: readonly (string | null)[];
	/** The values of each person, `id|name|…`, null as nothing. */
	readonly people: readonly string[];
	readonly told?: readonly string[];
	readonly map?: RosterMap;
}

const cases: Record<string, Case> = {
	'UTF-16 little endian without a mark': {
		text: 'ID;Name;Abteilung\r\n007;Jörg Groß;Lager\r\n',
		encoding: 'utf-16le',
		as: { encoding: 'utf-16le', delimiter: ';' },
		people: ['007|Jörg Groß|Lager']
	},
	'UTF-16 big endian without a mark': {
		text: 'ID\tName\tDepartment\n1\tZoë\tDock\n',
		encoding: 'utf-16be',
		as: { encoding: 'utf-16be', delimiter: '\t' },
		people: ['1|Zoë|Dock']
	},
	'windows-1252 with the euro sign and typographic quotes': {
		text: 'Matricule;Nom;Prénom;Service\r\n12;Lœuillet;Noël;Coût €\r\n13;D’Arc;Zoé;Café\r\n',
		encoding: 'windows-1252',
		as: { encoding: 'windows-1252' },
		fields: ['id', 'familyName', 'givenName', 'department'],
		people: ['12|Noël Lœuillet|Coût €', '13|Zoé D’Arc|Café']
	},
	'ISO-8859-2, Polish': {
		text: 'Nr ewid.;Nazwisko;Imię;Dział\r\n1;Żółkiewska;Małgorzata;Księgowość\r\n2;Źrebiec;Łukasz;Chłodnia\r\n',
		encoding: 'iso-8859-2',
		as: { encoding: 'iso-8859-2' },
		people: ['1|Małgorzata Żółkiewska|Księgowość', '2|Łukasz Źrebiec|Chłodnia']
	},
	'windows-1250, Polish': {
		text: 'Nr ewid.;Nazwisko;Imię;Dział\r\n1;Śliwa;Małgorzata;Księgowość\r\n2;Źrebiec;Jaś;Chłodnia\r\n',
		encoding: 'windows-1250',
		as: { encoding: 'windows-1250' },
		people: ['1|Małgorzata Śliwa|Księgowość', '2|Jaś Źrebiec|Chłodnia']
	},
	'ISO-8859-15 said by the map': {
		text: 'ID;Name;Department\r\n1;Šárka Œ;€\r\n',
		encoding: 'iso-8859-15',
		map: { encoding: 'iso-8859-15' },
		as: { encoding: 'iso-8859-15' },
		people: ['1|Šárka Œ|€']
	},
	'cp850 said by the map': {
		text: 'Pers.-Nr.;Name;Abteilung\r\n1;Jürgen Weiß;Büro\r\n',
		encoding: 'cp850',
		map: { encoding: 'ibm850' },
		as: { encoding: 'ibm850' },
		people: ['1|Jürgen Weiß|Büro']
	},
	'headers in two lines': {
		text: 'Staff no,Name,,Department\n,First name,Last name,\n1,Ana,Ruiz,Dock\n2,Ben,Fox,Dock\n',
		fields: ['id', 'givenName', 'familyName', 'department'],
		people: ['1|Ana Ruiz|Dock', '2|Ben Fox|Dock']
	},
	'a person without an id under the header, whose cells are words that headers have': {
		text: 'Staff no,Name,Department,Job\n,Team,Office,Function\n2,Ben,Dock,Clerk\n',
		people: ['2|Ben|Dock|Clerk'],
		told: ['2 id-missing Staff no']
	},
	'a header that can be a team or a shift, over shifts': {
		text: 'Matricule;Nom;Prénom;Équipe\n1;Roux;Léa;matin\n2;Petit;Noé;nuit\n3;Morel;Zoé;soir\n',
		fields: ['id', 'familyName', 'givenName', 'shiftPattern'],
		people: ['1|Léa Roux|matin', '2|Noé Petit|nuit', '3|Zoé Morel|soir']
	},
	'a header that can be a team or a shift, over teams': {
		text: 'Matricule;Nom;Prénom;Équipe\n1;Roux;Léa;Quai\n2;Petit;Noé;Froid\n3;Morel;Zoé;Quai\n',
		fields: ['id', 'familyName', 'givenName', 'department'],
		people: ['1|Léa Roux|Quai', '2|Noé Petit|Froid', '3|Zoé Morel|Quai']
	},
	'a mark of UTF-8, and carriage returns alone': {
		text: '\ufeffID,Name,Department\r1,Ana,Dock\r2,Ben,Dock\r',
		people: ['1|Ana|Dock', '2|Ben|Dock']
	},
	'pipes, and spaces around every cell': {
		text: 'ID | Name | Department\n 1 | Ana Ruiz | Dock \n',
		as: { delimiter: '|' },
		people: ['1|Ana Ruiz|Dock']
	},
	'tabs, from the clipboard, with a line end inside a cell': {
		text: 'Staff No.\tName\tDepartment\r\n00123\t"Ana\nRuiz"\tDock\r\n00124\tBen\tDock',
		as: { delimiter: '\t' },
		people: ['00123|Ana\nRuiz|Dock', '00124|Ben|Dock']
	},
	'a line that declares the delimiter': {
		text: 'sep=;\r\nID;Name;Department\r\n1;Ana, B.;Dock\r\n',
		as: { delimiter: ';' },
		people: ['1|Ana, B.|Dock']
	},
	'titles, a blank line, totals and the header once more': {
		text: 'Larkfen Cold Store;;\nas of 2027-01-04;;\n;;\nID;Name;Department\n1;Ana;Dock\nID;Name;Department\n2;Ben;Dock\nTotal;2;\n',
		people: ['1|Ana|Dock', '2|Ben|Dock'],
		told: ['6 header-repeated -', '8 total-row -']
	},
	'decimal commas in a list with commas in quotes': {
		text: 'ID,Name,FTE,Department\n1,"Ruiz, Ana","0,5",Dock\n2,"Ode, Ben","1,0",Dock\n3,"Kaya, Cem","1,0",Dock\n',
		people: ['1|Ana Ruiz|Dock', '2|Ben Ode|Dock', '3|Cem Kaya|Dock']
	},
	'quotes that are broken in one row': {
		text: 'ID,Name,Department\n1,"Ana "Anni" Ruiz",Dock\n2,Ben,Dock\n',
		people: ['1|Ana "Anni" Ruiz|Dock', '2|Ben|Dock'],
		told: ['2 quote-broken Name']
	},
	'a forgotten quote': {
		text: 'ID,Name,Department\n1,"Ana,Dock\n2,Ben,Dock\n3,Cem,Dock\n',
		people: ['1|"Ana|Dock', '2|Ben|Dock', '3|Cem|Dock'],
		told: ['2 quote-broken Name']
	},
	'a row with too few cells, and one with too many': {
		text: 'ID,Name,Department\n1,Ana\n2,Ben,Dock,more\n3,Cem,Dock\n',
		people: ['1|Ana|', '2|Ben|Dock', '3|Cem|Dock'],
		told: ['2 cells-too-few -', '3 cells-too-many -']
	},
	formulas: {
		text: 'ID,Name,Department\n1,Ana,=1+1\n2,@SUM(A1),Dock\n3,Cem,-5\n',
		people: ['1|Ana|=1+1', '2|@SUM(A1)|Dock', '3|Cem|-5'],
		told: ['2 formula Department', '3 formula Name']
	},
	'dates, day first by one of them': {
		text: 'ID;Name;Start date\n1;Ana;04/01/2027\n2;Ben;13/02/2027\n',
		people: ['1|Ana|2027-01-04', '2|Ben|2027-02-13']
	},
	'dates, month first by one of them': {
		text: 'ID;Name;Start date\n1;Ana;04/01/2027\n2;Ben;02/13/2027\n',
		people: ['1|Ana|2027-04-01', '2|Ben|2027-02-13']
	},
	'dates whose order nothing decides': {
		text: 'ID;Name;Start date\n1;Ana;04/01/2027\n2;Ben;05/02/2027\n3;Cem;06/06/2027\n',
		people: ['1|Ana|', '2|Ben|', '3|Cem|2027-06-06'],
		told: ['2 date-order-unknown Start date']
	},
	'dates whose order the map gives': {
		text: 'ID;Name;Start date\n1;Ana;04/01/2027\n',
		map: { dateOrder: 'month-first' },
		people: ['1|Ana|2027-04-01']
	},
	'two columns of dates, each by its own evidence': {
		text: 'ID;Name;Hire date;End date\n1;Ana;13/01/2020;01/02/2027\n2;Ben;02/03/2020;01/31/2027\n',
		people: ['1|Ana|2020-01-13|2027-01-02', '2|Ben|2020-03-02|2027-01-31']
	},
	'years of two digits': {
		text: 'ID;Name;Start date\n1;Ana;31.12.98\n2;Ben;1.2.03\n',
		people: ['1|Ana|1998-12-31', '2|Ben|2003-02-01']
	},
	'months by name, in five languages': {
		text: 'ID;Name;Start date\n1;A;4 Jan 2027\n2;B;5. März 2020\n3;C;1er août 2020\n4;D;7 de mayo de 2020\n5;E;8 października 2020\n',
		people: ['1|A|2027-01-04', '2|B|2020-03-05', '3|C|2020-08-01', '4|D|2020-05-07', '5|E|2020-10-08']
	},
	'a date that is none, and the word for no end': {
		text: 'Pers.-Nr.;Name;Eintritt;Austritt\n1;Ana;31.02.2027;unbefristet\n2;Ben;13.01.2027;-\n',
		people: ['1|Ana||', '2|Ben|2027-01-13|'],
		told: ['2 date-invalid Eintritt']
	},
	'a last day before the first': {
		text: 'ID;Name;Start date;End date\n1;Ana;2027-03-01;2027-02-01\n',
		people: ['1|Ana|2027-03-01|2027-02-01'],
		told: ['2 leaves-before-start End date']
	},
	'ids in powers of ten': {
		text: 'ID,Name,Department\n1.00E+05,Ana,Dock\n100001,Ben,Dock\n',
		people: ['100001|Ben|Dock'],
		told: ['2 id-damaged ID']
	},
	'ids that lost their zeros': {
		text: 'ID,Name,Department\n00123,Ana,Dock\n124,Ben,Dock\n00125,Cem,Dock\n',
		people: ['00123|Ana|Dock', '00125|Cem|Dock'],
		told: ['3 id-damaged ID']
	},
	'ids missing and repeated': {
		text: 'ID,Name,Department\n1,Ana,Dock\n,Ben,Dock\n1,Cem,Dock\n',
		people: ['1|Ana|Dock'],
		told: ['3 id-missing ID', '4 id-repeated ID']
	},
	'ids as text for a spreadsheet': {
		text: 'ID,Name,Department\n="00123",Ana,Dock\n',
		people: ['="00123"|Ana|Dock'],
		told: ['2 formula ID']
	},
	'names with particles, in other scripts, of one word': {
		text: 'ID,Name,Department\n1,Jan van der Berg,Dock\n2,李 小龍,Dock\n3,Suharto,Dock\n4,Ng,Dock\n5,Жанна Шевчук,Dock\n',
		people: ['1|Jan van der Berg|Dock', '2|李 小龍|Dock', '3|Suharto|Dock', '4|Ng|Dock', '5|Жанна Шевчук|Dock']
	},
	'last name first with a comma, with particles': {
		text: 'ID;Name;Department\n1;van der Berg, Jan;Dock\n2;Ruiz, Ana María;Dock\n3;de la Tour, Zoé;Dock\n',
		people: ['1|Jan van der Berg|Dock', '2|Ana María Ruiz|Dock', '3|Zoé de la Tour|Dock']
	},
	'one name with a comma among others is kept': {
		text: 'ID;Name;Department\n1;Ruiz, Ana;Dock\n2;Ben Ode;Dock\n3;Cem Kaya, Jr.;Dock\n',
		people: ['1|Ruiz, Ana|Dock', '2|Ben Ode|Dock', '3|Cem Kaya, Jr.|Dock']
	},
	'no-break spaces, marks without width, and letters in two parts': {
		text: 'ID,Name,Department\n\u200b1\u00a0,Jose\u0301\u00a0Mari\u0301a,Dock\u202f\n',
		people: ['1|José María|Dock']
	},
	'emoji in a name': { text: 'ID,Name,Department\n1,Ana 😎,Dock\n', people: ['1|Ana 😎|Dock'] },
	'an address that is none, and one with capitals': {
		text: 'ID,Name,Email\n1,Ana,ana@\n2,Ben,Ben@Example.org\n',
		people: ['1|Ana|', '2|Ben|Ben@Example.org'],
		told: ['2 email-invalid Email']
	},
	'the same person under two numbers': {
		text: 'ID,Name,Department,Email\n1,Ana Ruiz,Dock,ana@example.org\n2,Ana Ruiz,Dock,ana@example.org\n',
		people: ['1|Ana Ruiz|Dock|ana@example.org', '2|Ana Ruiz|Dock|ana@example.org'],
		told: ['3 same-person ID']
	},
	'two people of one name are two': {
		text: 'ID,Name,Department\n1,Ana Ruiz,Dock\n2,Ana Ruiz,Office\n',
		people: ['1|Ana Ruiz|Dock', '2|Ana Ruiz|Office']
	},
	'errors of a spreadsheet': {
		text: 'ID,Name,Department,Start date\n1,Ana,#N/A,2020-01-02\n2,Ben,Dock,#WERT!\n#REF!,Cem,Dock,2020-01-02\n4,Dan,Dock,########\n',
		people: ['1|Ana||2020-01-02', '2|Ben|Dock|', '4|Dan|Dock|'],
		told: ['2 value-unknown Department', '3 date-invalid Start date', '4 id-missing ID', '5 date-invalid Start date']
	},
	'lost letters of another encoding': {
		text: 'ID;Name;Department\n1;J\ufffdrg;Dock\n2;Ben;Dock\n',
		people: ['1||Dock', '2|Ben|Dock'],
		told: ['2 encoding-doubtful Name']
	},
	'UTF-8 that was read as windows-1252': {
		text: 'ID;Name;Department\n1;MÃ¼ller;Dock\n',
		people: ['1|MÃ¼ller|Dock'],
		told: ['2 encoding-doubtful Name']
	},
	'headers with typos': {
		text: 'Employe ID;Full nmae;Departement;Strat date\n1;Ana;Dock;2020-01-02\n',
		fields: ['id', 'name', 'department', 'startsOn'],
		people: ['1|Ana|Dock|2020-01-02']
	},
	'German headers, shortened': {
		text: 'PersNr;Nachn.;Vorn.;Abt.;Eintr.-Dat.;Mail\n1;Groß;Änne;Lager;2020-01-02;a@example.org\n',
		fields: ['id', 'familyName', 'givenName', 'department', 'startsOn', 'email'],
		people: ['1|Änne Groß|Lager|a@example.org|2020-01-02']
	},
	'French headers, shortened': {
		text: 'N° mat.;Nom;Prén.;Serv.;Dt embauche\n1;Dupré;Zoé;Froid;2020-01-02\n',
		fields: ['id', 'familyName', 'givenName', 'department', 'startsOn'],
		people: ['1|Zoé Dupré|Froid|2020-01-02']
	},
	'Spanish headers, shortened': {
		text: 'Nº empl.;Apellidos;Nombre;Dpto.;F. ingreso\n1;Muñoz;Raúl;Almacén;2020-01-02\n',
		fields: ['id', 'familyName', 'givenName', 'department', 'startsOn'],
		people: ['1|Raúl Muñoz|Almacén|2020-01-02']
	},
	'Polish headers': {
		text: 'Nr pracownika;Nazwisko;Imię;Dział;Data zatr.;Stanowisko\n1;Zając;Ewa;Biuro;2020-01-02;Operator\n',
		fields: ['id', 'familyName', 'givenName', 'department', 'startsOn', 'job'],
		people: ['1|Ewa Zając|Biuro|Operator|2020-01-02']
	},
	'headers of a program': {
		text: 'employee_id,firstName,lastName,dept_name,hire_date,workEmail\n1,Ana,Ruiz,Dock,2020-01-02,a@example.org\n',
		fields: ['id', 'givenName', 'familyName', 'department', 'startsOn', 'email'],
		people: ['1|Ana Ruiz|Dock|a@example.org|2020-01-02']
	},
	'headers over two lines, in quotes': {
		text: '"Staff\nNo.","Full\nname","Depart-\nment"\n1,Ana,Dock\n',
		fields: ['id', 'name', 'department'],
		people: ['1|Ana|Dock']
	},
	'no header, told by what the cells hold': {
		text: 'E-1001,Ana Ruiz,ana@example.org\nE-1002,Ben Ode,ben@example.org\nE-1003,Cem Kaya,cem@example.org\n',
		fields: ['id', 'name', 'email'],
		people: ['E-1001|Ana Ruiz|ana@example.org', 'E-1002|Ben Ode|ben@example.org', 'E-1003|Cem Kaya|cem@example.org']
	},
	'a running number beside the staff number': {
		text: 'No.;Staff No.;Name\n1;00123;Ana\n2;00124;Ben\n',
		fields: [null, 'id', 'name'],
		people: ['00123|Ana', '00124|Ben']
	},
	'columns in an order and with neighbors of their own': {
		text: 'Cost center;Phone;Name;Room;Staff No.\n4711;+49 30 123456;Ana;B2;007\n',
		fields: [null, null, 'name', null, 'id'],
		people: ['007|Ana']
	},
	'a column that the map takes away': {
		text: 'ID;Name;Department\n1;Ana;Dock\n',
		map: { columns: { Department: null } },
		fields: ['id', 'name', null],
		people: ['1|Ana']
	},
	'every line in quotes as a whole': {
		text: '"ID,Name,Department"\n"1,Ana,Dock"\n"2,Ben,Dock"\n',
		people: ['1|Ana|Dock', '2|Ben|Dock']
	},
	'delimiters behind every line': {
		text: 'ID;Name;Department;;\n1;Ana;Dock;;\n2;Ben;Dock;;\n',
		people: ['1|Ana|Dock', '2|Ben|Dock']
	},
	'group headings between the people': {
		text: 'ID;Name;Department\nDock crew;;\n1;Ana;Dock\nOffice crew;;\n2;Ben;Office\n',
		people: ['1|Ana|Dock', '2|Ben|Office'],
		told: ['2 total-row -', '4 total-row -']
	},
	'somebody whose name begins as a total does': {
		text: 'ID;Name;Department\n1;Summer Gesamtova;Dock\n2;Total Ruiz;Dock\n',
		people: ['1|Summer Gesamtova|Dock', '2|Total Ruiz|Dock']
	},
	'areas and needs in one cell each': {
		text: 'ID;Name;Work areas;Needs\n1;Ana;Dock / Freezer;step-free, chair\n2;Ben;Dock;keine\n',
		people: ['1|Ana|Dock,Freezer|step-free,chair', '2|Ben|Dock|']
	},
	'an id of more characters than an id has': {
		text: `ID;Name;Department\n${'9'.repeat(65)};Ana;Dock\n2;Ben;Dock\n`,
		people: ['2|Ben|Dock'],
		told: ['2 cell-too-long ID']
	},
	'dates with a time behind': {
		text: 'ID;Name;Start date\n1;Ana;2027-01-04T00:00:00\n2;Ben;13/02/2027 08:30\n3;Cem;04/01/2027 12:00:00 AM\n',
		people: ['1|Ana|2027-01-04', '2|Ben|2027-02-13', '3|Cem|2027-01-04']
	},
	'a number for a day in plain text': {
		text: 'ID;Name;Start date\n1;Ana;46391\n2;Ben;2027-01-04\n',
		people: ['1|Ana|', '2|Ben|2027-01-04'],
		told: ['2 date-invalid Start date']
	},
	'line ends of three kinds in one file': {
		text: 'ID;Name;Department\r\n1;Ana;Dock\n2;Ben;Dock\r3;Cem;Dock',
		people: ['1|Ana|Dock', '2|Ben|Dock', '3|Cem|Dock']
	}
};

const order = [
	...(['id', 'name', 'department', 'job', 'email', 'startsOn', 'leavesOn', 'shiftPattern'] as const),
	...(['workAreas', 'wave', 'captureClass', 'needs', 'language'] as const)
];

describe('a list with', () => {
	test.each(Object.entries(cases))('%s', (_, { text, encoding, as, fields, people, told: problems, map }) => {
		const result = importRoster(bytesOf(text, encoding), { map });
		if (!result.ok) throw new Error(result.faults.map(({ message }) => message).join('\n'));
		const answer = result.value;
		const rows = answer.people.map((person) =>
			order
				.filter((field) => person[field] !== undefined)
				.map((field) => String(person[field] ?? ''))
				.join('|')
		);
		expect({ people: rows, told: told(answer) }).toEqual({ people, told: problems ?? [] });
		if (as) expect(answer).toMatchObject(as);
		if (fields) expect(fieldsOf(answer)).toEqual(fields);
	});
});

test('what is read does not depend on the row in which the evidence stands', () => {
	const rows = ['1;Ana;04/01/2027', '2;Ben;05/02/2027', '3;Cem;13/02/2027'];
	const read = (all: readonly string[]) =>
		readRoster(['ID;Name;Start date', ...all].join('\n')).people.toSorted((a, b) => Number(a.id) - Number(b.id));
	expect(read(rows.toReversed())).toEqual(read(rows));
});
