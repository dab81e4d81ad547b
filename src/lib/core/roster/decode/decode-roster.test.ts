import fc from 'fast-check';
import iconv from 'iconv-lite';
import { describe, expect, test } from 'vitest';
import { decodeRoster, encodingLabel, isDoubtful, withBytesShown } from './decode-roster';
import { detectEncoding } from './detect-encoding';

const bytesOf = (text: string, encoding: string, addBOM = false) =>
	new Uint8Array(iconv.encode(text, encoding, { addBOM }));

/** Lists in several languages, as short as a small site's. */
const samples: Record<string, string> = {
	German: 'Pers.-Nr.;Name;Abteilung\n1;Jörg Müller;Kühlung\n2;Änne Groß;Büro – Süd\n3;Özlem Weiß;Küche\n',
	French: 'Matricule;Nom;Prénom;Service\n1;Lefèvre;Hélène;Réception\n2;Garçon;Noël;Entrepôt\n3;Cœur;Loïc;Qualité\n',
	Spanish: 'Nº empleado;Nombre;Apellidos\n1;María José;Muñoz Peña\n2;Íñigo;Núñez\n3;Begoña;Güell\n',
	Danish: 'Nr;Name;Afdeling\n1;Søren Kjær;Køl\n2;Åse Ødegård;Løn\n3;Bjørn Bøe;Lager\n',
	Icelandic: 'Nr;Name;Deild\n1;Þórður Jónsson;Kælir\n2;Guðrún Ásgeirsdóttir;Skrifstofa\n3;Ýmir Þór;Lager\n',
	Catalan: 'Nº;Nom;Àrea\n1;Mònica Solà;Recepció\n2;Jordi Núñez;Magatzem\n3;Lluís Ventalló;Direcció\n'
};
const central: Record<string, string> = {
	Polish:
		'Nr ewid.;Nazwisko;Imię;Dział\n1;Wiśniewski;Łukasz;Chłodnia\n2;Dębska;Elżbieta;Księgowość\n3;Źrebiec;Jaś;Pakowanie\n',
	'Polish with few letters': 'Nr ewid.;Nazwisko;Imię\n1;Kowalski;Jan\n2;Kamiński;Adam\n3;Nowak;Ewa\n',
	Czech: 'Osobní číslo;Příjmení;Jméno\n1;Dvořák;Tomáš\n2;Růžičková;Zdeněk\n3;Šťastný;Jiří\n',
	Hungarian: 'Törzsszám;Név;Osztály\n1;Szűcs Győző;Hűtő\n2;Erdős Ödön;Iroda\n'
};

const detected = (text: string, encoding: string) => detectEncoding(bytesOf(text, encoding)).encoding;

describe('lists in single-byte encodings', () => {
	test.each(Object.entries(samples))('%s in windows-1252', (_, text) =>
		expect(detected(text, 'windows-1252')).toBe('windows-1252')
	);
	test.each(Object.entries(central))('%s in windows-1250', (_, text) =>
		expect(detected(text, 'windows-1250')).toBe('windows-1250')
	);
	test.each(Object.entries(central).filter(([language]) => !/few/.test(language)))('%s in ISO-8859-2', (_, text) => {
		const label = detected(text, 'iso-8859-2');
		// Where no byte tells the two apart, either gives the same text.
		expect(iconv.decode(bytesOf(text, 'iso-8859-2'), label)).toBe(text);
	});
	test('Polish in ISO-8859-2 is not taken for windows-1250', () => {
		expect(detected(central['Polish'] ?? '', 'iso-8859-2')).toBe('iso-8859-2');
	});
	test.each([
		'O’Neil',
		'O’Neil, O’Brien, O’Hara, D’Arcy',
		'“Bob” Brown',
		'5 € – 10 €',
		'Smith–Jones',
		'and so on…',
		'JOSÉ MUÑOZ'
	])('%s in windows-1252', (words) =>
		expect(detected(`id;name;note\n1;Ana;${words}\n`, 'windows-1252')).toBe('windows-1252')
	);
	test('Turkish in windows-1254', () => {
		expect(
			detected('Sicil;Ad;Bölüm\n1;Işıl Şahin;Soğutma\n2;Gökçe Yıldız;İdare\n3;Ağrı Doğan;Depo\n', 'windows-1254')
		).toBe('windows-1254');
	});
	// A column of names is all that such a list has in its script; statistics of whole texts take these for Chinese or Latvian.
	const cyrillic = 'ID;Name\n1;Иван Смирнов\n2;Пётр Жуков\n3;Анна Щербакова\n4;Юлия Цветкова\n5;Сергей Орлов\n';
	const greek = 'ID;Name\n1;Γιώργος Ξένος\n2;Μαρία Φωτίου\n3;Σπύρος Ψαράς\n4;Αθηνά Νικολάου\n';
	const hebrew = 'ID;Name\n1;יוסי כהן\n2;מרים לוי\n3;אברהם שלום\n';
	const arabic = 'ID;Name\n1;محمد حسن\n2;فاطمة سعيد\n3;علي الحسن\n';
	test.each([
		['Cyrillic', 'iso-8859-5', cyrillic],
		['Cyrillic', 'windows-1251', cyrillic],
		['Cyrillic', 'koi8-r', cyrillic],
		['Cyrillic', 'ibm866', cyrillic],
		['Cyrillic capitals', 'windows-1251', cyrillic.toUpperCase()],
		['Cyrillic capitals', 'koi8-r', cyrillic.toUpperCase()],
		['Greek', 'iso-8859-7', greek],
		['Hebrew', 'iso-8859-8', hebrew],
		['Arabic', 'iso-8859-6', arabic],
		['Arabic', 'windows-1256', arabic]
	])('a few names in %s, in %s', (_, encoding, text) => {
		expect(detected(text, encoding)).toBe(encoding);
	});
	test.each(['shift_jis', 'euc-jp', 'gb18030', 'big5', 'euc-kr'])(
		'%s is taken for no script of single bytes',
		(encoding) => {
			const names =
				encoding === 'euc-kr'
					? '김민준,이서연,박지훈,최수아,정하은,강도윤'
					: '山田太郎,佐藤花子,中村三郎,小林美子,大野一男,上田正';
			const text = `ID,Name\n${names
				.split(',')
				.map((name, index) => `${index},${name}`)
				.join('\n')}\n`;
			expect(detected(text, encoding)).toMatch(/^(?:shift_jis|euc-jp|gb18030|big5|euc-kr)$/);
		}
	);
	test.each(['German', 'French', 'Spanish', 'Danish'])('%s from other systems: macintosh and ibm850', (language) => {
		const text = (samples[language] ?? '').replace('–', '-').replace('œ', 'oe');
		expect(detected(text, 'macintosh')).toBe('macintosh');
		expect(detected(text, 'cp850')).toBe('ibm850');
	});
	test('œ and š in ISO-8859-15', () => {
		expect(detected('Nr;Nom\n1;Cœur Šimić\n2;Sœur Lefèvre\n', 'iso-8859-15')).toBe('iso-8859-15');
	});
	test.each([
		[
			'Russian',
			'windows-1251',
			'Табельный номер;Фамилия;Имя;Отдел\n1;Иванова;Мария;Упаковка\n2;Петров;Алексей;Склад\n3;Сидоров;Дмитрий;Холодильная камера\n'
		],
		[
			'Greek',
			'iso-8859-7',
			'Αριθμός;Όνομα;Τμήμα\n1;Μαρία Παπαδοπούλου;Συσκευασία\n2;Γιώργος Νικολάου;Αποθήκη\n3;Ελένη Γεωργίου;Γραφείο\n'
		],
		['Japanese', 'shift_jis', '社員番号,氏名,部署\n1,山田太郎,包装部\n2,鈴木花子,冷凍倉庫\n3,佐藤健一,総務部\n']
	])('%s, by the statistics of chardet', (_, encoding, text) => {
		const label = detected(text, encoding);
		expect(iconv.decode(bytesOf(text, encoding), label)).toBe(text);
	});
	test('one accented letter at the very end of a file is no UTF-8', () => {
		expect(detected('id,name\n1,José', 'windows-1252')).toBe('windows-1252');
	});
});

describe('Unicode', () => {
	test.each(['utf8', 'utf-16le', 'utf-16be', 'utf-32le', 'utf-32be'])(
		'%s with a mark, which is no part of the text',
		(encoding) => {
			const text = samples['French'] ?? '';
			const decoded = decodeRoster(bytesOf(text, encoding, true), undefined);
			expect(decoded.ok && decoded.value).toMatchObject({ text, encoding: encoding === 'utf8' ? 'utf-8' : encoding });
		}
	);
	test.each(['utf-16le', 'utf-16be'])('%s without a mark, in Latin and in other scripts', (encoding) => {
		expect(detected(samples['German'] ?? '', encoding)).toBe(encoding);
		expect(detected('社員番号,氏名,部署\n1,山田太郎,包装部\n2,鈴木花子,冷凍倉庫\n', encoding)).toBe(encoding);
	});
	test('bytes that UTF-8 does not explain are kept apart, each where it was, and shown as windows-1252', () => {
		const bytes = new Uint8Array([
			...bytesOf('id,näme,Größe,Übung,', 'utf8'),
			0xe9,
			0x2c,
			0xf0,
			0x9f,
			0x2c,
			...bytesOf('ß', 'utf8')
		]);
		const decoded = decodeRoster(bytes, undefined);
		if (!decoded.ok) throw new Error('refused');
		expect(decoded.value.encoding).toBe('utf-8');
		expect(isDoubtful(decoded.value.text)).toBe(true);
		expect(withBytesShown(decoded.value.text)).toBe('id,näme,Größe,Übung,é,ðŸ,ß');
	});
});

describe('The Unicode Standard, table 3-7: what is well-formed UTF-8 is what TextDecoder takes', () => {
	test('random bytes', () => {
		const unit = fc.constantFrom(
			0x41,
			0x80,
			0xbf,
			0xc0,
			0xc2,
			0xdf,
			0xe0,
			0xa0,
			0x9f,
			0xed,
			0xef,
			0xf0,
			0x90,
			0x8f,
			0xf4,
			0xf5
		);
		fc.assert(
			fc.property(fc.array(unit, { minLength: 1, maxLength: 12 }), (list) => {
				const bytes = Uint8Array.from([0x69, 0x64, ...list, 0x2c]);
				const decoded = decodeRoster(bytes, 'utf-8');
				const expected = new TextDecoder('utf-8').decode(bytes);
				// Every byte that is kept apart is one that TextDecoder replaces (several at once may be one mark there).
				const ours = decoded.ok ? decoded.value.text.replace(/[\udc80-\udcff]+/gu, '\ufffd') : '';
				expect(ours).toBe(expected.replace(/\ufffd+/g, '\ufffd'));
			}),
			{ numRuns: 1000 }
		);
	});
});

test('WHATWG Encoding, index windows-1252: the bytes 80 to 9F', () => {
	const bytes = Uint8Array.from({ length: 32 }, (_, index) => 0x80 + index);
	const decoded = decodeRoster(new Uint8Array([...bytesOf('id,name,', 'utf8'), ...bytes]), 'windows-1252');
	const text = decoded.ok ? decoded.value.text.slice(8) : '';
	expect(text.replace(/[\udc80-\udcff]/gu, '?')).toBe('€?‚ƒ„…†‡ˆ‰Š‹Œ?Ž??‘’“”•–—˜™š›œ?žŸ');
});

test('names of encodings are understood in any spelling, and answered in one', () => {
	expect(['UTF8', 'latin1', 'ISO-8859-1', 'Latin2', 'cp1250', 'UTF-16', 'cp850'].map(encodingLabel)).toEqual([
		'utf-8',
		'windows-1252',
		'windows-1252',
		'iso-8859-2',
		'windows-1250',
		'utf-16le',
		'cp850'
	]);
	expect(['', 'utf-9', 'base64', 'hex', 'klingon'].map(encodingLabel)).toEqual([
		undefined,
		undefined,
		undefined,
		undefined,
		undefined
	]);
});
