import fc from 'fast-check';
import iconv from 'iconv-lite';
import { expect, test } from 'vitest';
import { rolloutSchema } from '../document/schema';
import { importRoster } from './import-roster';

/** A person as they are written into a list, and come out of it. */
interface Row {
	readonly id: string;
	readonly name: string;
	readonly department: string | null;
	readonly job: string | null;
	readonly email: string | null;
	readonly startsOn: string | null;
	readonly leavesOn: string | null;
}

const headers = {
	en: ['Employee ID', 'Name', 'Department', 'Job title', 'E-mail', 'Start date', 'End date'],
	de: ['Personalnummer', 'Mitarbeitername', 'Abteilung', 'Tätigkeit', 'E-Mail', 'Eintritt', 'Austritt'],
	fr: ['Matricule', 'Nom complet', 'Service', 'Poste', 'Courriel', "Date d'entrée", 'Date de sortie'],
	es: [
		'Nº empleado',
		'Nombre y apellidos',
		'Departamento',
		'Puesto',
		'Correo electrónico',
		'Fecha de alta',
		'Fecha de baja'
	],
	pl: [
		'Nr ewidencyjny',
		'Imię i nazwisko',
		'Dział',
		'Stanowisko',
		'Adres e-mail',
		'Data zatrudnienia',
		'Data zwolnienia'
	]
} as const;

const date = fc
	.date({ min: new Date('1980-01-01'), max: new Date('2040-12-31'), noInvalidDate: true })
	.map((day) => day.toISOString().slice(0, 10));

/** Free words as people write them, in the letters of an encoding: with delimiters, quotes and line ends. */
function wordsOf(letters: string): fc.Arbitrary<string> {
	const unit = fc.constantFrom(
		...letters,
		...letters,
		' ',
		',',
		';',
		'"',
		"'",
		'.',
		'-',
		'/',
		'(',
		')',
		'&',
		'|',
		'\t',
		'\n'
	);
	return fc
		.string({ unit, minLength: 1, maxLength: 20 })
		.map((text) => text.normalize('NFC').trim())
		.filter((text) => /\p{L}{2}/u.test(text));
}

function nameOf(letters: string): fc.Arbitrary<string> {
	const part = fc.string({ unit: fc.constantFrom(...letters), minLength: 2, maxLength: 9 });
	return fc.tuple(part, part).map(([first, last]) => `${first} ${last}`.normalize('NFC'));
}

function rowsOf(letters: string): fc.Arbitrary<Row[]> {
	const row = fc.record({
		name: nameOf(letters),
		department: fc.option(wordsOf(letters)),
		job: fc.option(wordsOf(letters)),
		email: fc.option(fc.stringMatching(/^[a-z]{1,8}\.[a-z]{1,8}@example\.(?:org|com)$/)),
		dates: fc.option(fc.tuple(date, fc.option(date)))
	});
	const ids = fc.oneof(
		fc.uniqueArray(fc.stringMatching(/^[A-Z]{1,2}-?\d{1,6}$/), { minLength: 1, maxLength: 12 }),
		fc.uniqueArray(fc.stringMatching(/^\d{6}$/), { minLength: 1, maxLength: 12 })
	);
	return ids.chain((all) =>
		fc.tuple(...all.map(() => row)).map((rows) =>
			rows.map(({ dates, ...rest }, index): Row => {
				const [one, other] = dates ?? [null, null];
				const [startsOn, leavesOn] = one !== null && other !== null && other < one ? [other, one] : [one, other];
				return { id: all[index] ?? '', ...rest, startsOn, leavesOn };
			})
		)
	);
}

const style = fc.record({
	language: fc.constantFrom(...(Object.keys(headers) as (keyof typeof headers)[])),
	delimiter: fc.constantFrom(',', ';', '\t', '|'),
	lineEnd: fc.constantFrom('\n', '\r\n', '\r'),
	quotesAll: fc.boolean(),
	endsInLineEnd: fc.boolean(),
	titles: fc.nat(2),
	order: fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6], { minLength: 7 })
});

type Style = typeof style extends fc.Arbitrary<infer T> ? T : never;

function written(
	rows: readonly Row[],
	{ language, delimiter, lineEnd, quotesAll, endsInLineEnd, titles, order }: Style
): string {
	const cell = (text: string | null): string => {
		const value = text ?? '';
		const needsQuotes = quotesAll || value.includes(delimiter) || /["\r\n]/.test(value);
		return needsQuotes ? `"${value.replaceAll('"', '""')}"` : value;
	};
	const record = (values: readonly (string | null)[]): string =>
		order.map((index) => cell(values[index] ?? null)).join(delimiter);
	const all = [
		...Array.from({ length: titles }, (_, index) => (index === 0 ? 'Larkfen' : '')),
		record(headers[language]),
		...rows.map((row) => record([row.id, row.name, row.department, row.job, row.email, row.startsOn, row.leavesOn]))
	];
	return all.join(lineEnd) + (endsInLineEnd ? lineEnd : '');
}

const ascii = 'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ';
const letters: Record<string, string> = {
	'utf-8': `${ascii}äöüßéèñçąćęłńśźżøåœ李小龍Жшй`,
	'utf-16le': `${ascii}äöüßéèñçąćęłńśźżøåœ李小龍Жшй`,
	'utf-16be': `${ascii}äöüßéèñçąćęłńśźżøåœ李小龍Жшй`,
	'windows-1252': `${ascii}äöüßéèñçøåœÄÖÜ`,
	'windows-1250': `${ascii}ąćęłńóśźżŁŚ`,
	'iso-8859-2': `${ascii}ąćęłńóśźżŁŚ`,
	'iso-8859-15': `${ascii}äöüßéèñçøåœŠ`,
	'windows-1251': `${ascii}абвгджшйЖ`,
	ibm850: `${ascii}äöüßéèñçøå`
};

/** Headers that the encoding can write. */
const languageFor: Record<string, Style['language']> = {
	'windows-1251': 'en',
	ibm850: 'en',
	'windows-1250': 'pl',
	'iso-8859-2': 'pl'
};

function encoded(text: string, encoding: string, hasMark: boolean): Uint8Array {
	return new Uint8Array(iconv.encode(text, encoding, { addBOM: hasMark }));
}

test.each(Object.keys(letters))('any people, written as any list in %s, come back unchanged and untold', (encoding) => {
	fc.assert(
		fc.property(rowsOf(letters[encoding] ?? ''), style, fc.boolean(), (rows, given, hasMark) => {
			const isWestern = encoding === 'windows-1252' || encoding === 'iso-8859-15';
			const language = languageFor[encoding] ?? (isWestern && given.language === 'pl' ? 'de' : given.language);
			const isUnicode = encoding.startsWith('utf');
			const bytes = encoded(written(rows, { ...given, language }), encoding, isUnicode && hasMark);
			// Letters at random are no language: what is not Unicode has to be said.
			const result = importRoster(bytes, { map: isUnicode ? undefined : { encoding } });
			if (!result.ok) throw new Error(result.faults[0]?.message);
			const { people, problems, changes } = result.value;
			// Words at random may begin with a dash, and two rows may agree.
			const codes = problems.map(({ code }) => code).filter((code) => code !== 'same-person' && code !== 'formula');
			expect(codes).toEqual([]);
			expect(result.value.encoding).toBe(encoding);
			expect(people).toEqual(rows.map((row) => ({ ...row })));
			expect(changes.joined).toEqual(rows.map(({ id }) => id));
		}),
		{ numRuns: 150 }
	);
});

test('joined, moved, unchanged and left are everybody, each once', () => {
	const ids = fc.uniqueArray(fc.integer({ min: 1000, max: 1020 }), { minLength: 1 });
	fc.assert(
		fc.property(ids, ids, fc.array(fc.boolean(), { minLength: 30, maxLength: 30 }), (before, after, moves) => {
			const into = rolloutSchema.parse({
				format: 'doorwright.rollout',
				version: 1,
				site: { name: 'Larkfen', timeZone: 'America/Chicago' },
				horizon: { from: '2027-01-04', until: '2027-12-31' },
				people: before.map((id) => ({ id: String(id), name: `Ana ${id}`, department: 'Packing' }))
			});
			const isMoved = (id: number) => moves[id - 1000] === true;
			const text = [
				'id,name,department',
				...after.map((id) => `${id},Ana ${id},${isMoved(id) ? 'Office' : 'Packing'}`)
			].join('\n');
			const result = importRoster(encoded(text, 'utf8', false), { into });
			if (!result.ok) throw new Error(result.faults[0]?.message);
			const strings = (list: readonly number[]) => list.map(String);
			const { joined, moved, left, unchanged } = result.value.changes;
			expect(joined).toEqual(strings(after.filter((id) => !before.includes(id))));
			expect(left).toEqual(strings(before.filter((id) => !after.includes(id))));
			expect(moved.map(({ person }) => person)).toEqual(
				strings(after.filter((id) => before.includes(id) && isMoved(id)))
			);
			expect(unchanged).toEqual(strings(after.filter((id) => before.includes(id) && !isMoved(id))));
		})
	);
});
