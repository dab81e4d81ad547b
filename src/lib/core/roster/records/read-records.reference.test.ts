import fc from 'fast-check';
import iconv from 'iconv-lite';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { decodeRoster } from '../decode/decode-roster';
import { readRecords } from './read-records';

const read = (text: string, width?: number) => readRecords(text, { delimiter: ',', width });

describe('RFC 4180, section 2', () => {
	test.each([
		[
			'1: records on lines of their own, CRLF',
			'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
			[
				['aaa', 'bbb', 'ccc'],
				['zzz', 'yyy', 'xxx']
			]
		],
		[
			'2: the last line end may be missing',
			'aaa,bbb,ccc\r\nzzz,yyy,xxx',
			[
				['aaa', 'bbb', 'ccc'],
				['zzz', 'yyy', 'xxx']
			]
		],
		['4: spaces are part of a field', 'aaa, bbb ,ccc', [['aaa', ' bbb ', 'ccc']]],
		[
			'5: fields may be in quotes',
			'"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
			[
				['aaa', 'bbb', 'ccc'],
				['zzz', 'yyy', 'xxx']
			]
		],
		['6: line ends, quotes and commas in quotes', '"aaa","b\r\nbb","c,cc"', [['aaa', 'b\r\nbb', 'c,cc']]],
		['7: a quote in quotes is doubled', '"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]]
	])('%s', (_, text, records) => {
		expect(read(text).records).toEqual(records);
		expect(read(text).broken.size).toBe(0);
	});
});

describe('vectors of csv-test-data (standards, 6.1)', () => {
	test.each([
		['all-empty', '\n\n', [[''], ['']]],
		['empty-field', '1,,3', [['1', '', '3']]],
		['leading-space', '1, b,3', [['1', ' b', '3']]],
		['quotes-with-comma', 'foo,"Luke, I am your father.",x', [['foo', 'Luke, I am your father.', 'x']]],
		['quotes-with-escaped-quote', '1,"a "" b",3', [['1', 'a " b', '3']]],
		['quotes-with-newline', '1,"a\nb",3', [['1', 'a\nb', '3']]],
		['quotes-empty', '1,"",3', [['1', '', '3']]],
		['utf8', '1,😎,3', [['1', '😎', '3']]],
		['trailing-newline', '1,2,3\n', [['1', '2', '3']]]
	])('%s', (_, text, records) => {
		expect(read(text).records).toEqual(records);
	});

	test.each([
		['bad-unescaped-quote', '1,This "quotes" must be escaped,3'],
		['bad-quotes-with-unescaped-quote', '1,"Hey, I missed " it",3']
	])('%s is told', (_, line) => {
		const { records, broken } = read(`foo,bar,baz\n${line}`, 3);
		expect(records[1]?.length).toBe(3);
		expect([...broken]).toEqual([[1, 1]]);
	});

	test('bad-missing-quote is cut off', () => {
		expect(read('foo,bar,baz\n1,"I forgot to close this one,3', 3).isCutOff).toBe(true);
	});
});

describe('vectors of csv-spectrum 2.0.0 (standards, 6.1)', () => {
	test.each([
		[
			'comma_in_quotes',
			'John,Doe,120 any st.,"Anytown, WW",08123',
			[['John', 'Doe', '120 any st.', 'Anytown, WW', '08123']]
		],
		[
			'empty_crlf',
			'a,b,c\r\n1,"",""\r\n2,3,4',
			[
				['a', 'b', 'c'],
				['1', '', ''],
				['2', '3', '4']
			]
		],
		[
			'empty',
			'a,b,c\n1,"",""\n2,3,4',
			[
				['a', 'b', 'c'],
				['1', '', ''],
				['2', '3', '4']
			]
		],
		[
			'escaped_quotes',
			'1,"ha ""ha"" ha"\n3,4\n',
			[
				['1', 'ha "ha" ha'],
				['3', '4']
			]
		],
		[
			'json',
			'1,"{""type"": ""Point"", ""coordinates"": [102.0, 0.5]}"\n',
			[['1', '{"type": "Point", "coordinates": [102.0, 0.5]}']]
		],
		[
			'newlines',
			'a,b,c\n1,2,3\n"Once upon \na time",5,6\n7,8,9',
			[
				['a', 'b', 'c'],
				['1', '2', '3'],
				['Once upon \na time', '5', '6'],
				['7', '8', '9']
			]
		],
		[
			'newlines_crlf',
			'"Once upon \r\na time",5,6\r\n7,8,9\r\n',
			[
				['Once upon \r\na time', '5', '6'],
				['7', '8', '9']
			]
		],
		[
			'quotes_and_newlines',
			'1,"ha \n""ha"" \nha"\n3,4\n',
			[
				['1', 'ha \n"ha" \nha'],
				['3', '4']
			]
		],
		[
			'simple',
			'a,b,c\n1,2,3',
			[
				['a', 'b', 'c'],
				['1', '2', '3']
			]
		],
		[
			'simple_crlf',
			'a,b,c\r\n1,2,3',
			[
				['a', 'b', 'c'],
				['1', '2', '3']
			]
		],
		[
			'utf8',
			'a,b,c\n4,5,ʤ',
			[
				['a', 'b', 'c'],
				['4', '5', 'ʤ']
			]
		]
	])('%s', (_, text, records) => {
		expect(read(text).records).toEqual(records);
	});

	test('location_coordinates, which is no UTF-8: its degree sign is told, and no mark stands for a lost character', () => {
		const text = 'Contact Phone Number,Location Coordinates,Cities,Counties\n5555555555,33 52 N 106 41° W,Hills,Yard';
		const decoded = decodeRoster(new Uint8Array(iconv.encode(text, 'windows-1252')), undefined);
		expect(decoded).toMatchObject({ ok: true, value: { encoding: 'windows-1252', text, hasDoubt: false } });
	});
});

test('Papa Parse, an independent reader, reads what it wrote itself as we do', () => {
	const cell = fc.string({ unit: fc.constantFrom('a', 'ß', '"', ',', ';', ' ', '\n', '\r\n', 'é', '0'), maxLength: 6 });
	const table = fc
		.integer({ min: 1, max: 4 })
		.chain((width) => fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 8 }));
	const style = fc.record({
		delimiter: fc.constantFrom(',', ';', '\t', '|'),
		newline: fc.constantFrom('\n', '\r\n'),
		quotes: fc.boolean()
	});
	fc.assert(
		fc.property(table, style, (rows, { delimiter, newline, quotes }) => {
			const text = Papa.unparse(rows, { delimiter, newline, quotes });
			fc.pre(text !== '');
			const theirs = Papa.parse<string[]>(text, { delimiter, newline }).data;
			const ours = readRecords(`${text}${newline}`, { delimiter, width: rows[0]?.length });
			expect(ours.records).toEqual(rows);
			expect(ours.broken.size).toBe(0);
			expect(theirs).toEqual(rows);
		}),
		{ numRuns: 500 }
	);
});
