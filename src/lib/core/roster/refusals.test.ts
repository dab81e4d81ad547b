import fc from 'fast-check';
import iconv from 'iconv-lite';
import { describe, expect, test } from 'vitest';
import { importRoster } from './import-roster';

const bytesOf = (text: string, encoding = 'utf8') => new Uint8Array(iconv.encode(text, encoding));

/** The faults of a file; empty for one that is read. */
const faultsOf = (bytes: Uint8Array) => {
	const result = importRoster(bytes);
	return result.ok ? [] : result.faults;
};

const people = Array.from(
	{ length: 40 },
	(_, index) => `${1000 + index};Ana ${'x'.repeat(index + 1)};Packing;2020-01-02`
);
const list = `ID;Name;Department;Start date\r\n${people.join('\r\n')}\r\n`;

/** Numbers that look random, the same every time. @source Lehmer generator with the constants of Park and Miller (1988) */
function noise(length: number, least: number, count: number): Uint8Array {
	let state = 20_270_104;
	return Uint8Array.from({ length }, () => least + ((state = (state * 48_271) % 2_147_483_647) % count));
}

const refused: Record<string, readonly [Uint8Array, RegExp]> = {
	'nothing at all': [new Uint8Array(), /nothing in this file/],
	'blank lines': [bytesOf('\r\n \r\n'), /nothing in this file/],
	'a byte order mark alone': [bytesOf('\ufeff'), /nothing in this file/],
	'a zip archive without its end': [Uint8Array.of(0x50, 0x4b, 3, 4, ...noise(500, 0, 256)), /cut off.*save it again/],
	'an older workbook': [
		Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, ...noise(500, 0, 256)),
		/save the sheet/
	],
	'a PDF document': [bytesOf(`%PDF-1.7\n${list}`), /PDF/],
	'a picture': [Uint8Array.of(0x89, 0x50, 0x4e, 0x47, ...noise(500, 0, 256)), /picture/],
	'a web page': [bytesOf('<!DOCTYPE html><table><tr><td>ID</td></tr></table>'), /web page/],
	JSON: [bytesOf('[{"id":"1001","name":"Ana"}]'), /JSON/],
	'half of a JSON document': [bytesOf('{"format":"doorwright.rollout","people":[{"id":"10'), /JSON/],
	XML: [bytesOf('<?xml version="1.0"?><people><person id="1"/></people>'), /XML/],
	prose: [
		bytesOf('Dear all,\n\nplease find attached the list of people, as agreed.\nThanks, Eva\n'),
		/header for the id/
	],
	'one column': [bytesOf('Name\nAna Ruiz\nBen Ode\n'), /header for the id/],
	'a price list': [bytesOf('sku,price,stock\nA1,9.99,3\nB2,19.99,1\n'), /header for the id/],
	'a list of doors': [
		bytesOf('No.,Door,From,To,Reader mA\n1,Front entrance,Street,Offices,450\n2,Dock entry,Yard,Dock,450\n'),
		/header for the id/
	],
	'a list of goods with ids and names': [
		bytesOf('ID,Name,Price\n1001,Steel bolt,9.99\n1002,Brass nut,1.99\n'),
		/header for the id/
	],
	'names and telephone numbers': [bytesOf('Name,Phone\nAna Ruiz,555 0100\nBen Ode,555 0101\n'), /header for the id/],
	'bytes of every kind': [noise(100_000, 0, 256), /no text/],
	'readable bytes without sense': [noise(100_000, 33, 94), /list of people/],
	'bytes beyond ASCII': [noise(100_000, 128, 128), /list of people|no text/],
	'an open quote at the end': [bytesOf('ID;Name;Department\n1001;Ana;Packing\n1002;"Ben'), /cut off/],
	'more rows than a spreadsheet holds': [bytesOf(`ID,Name\n${'1,a\n'.repeat(1_048_576)}`), /more than 1048576 rows/],
	'half a character of UTF-16': [bytesOf(list, 'utf16le').slice(0, 701), /cut off/],
	'half a character of UTF-8': [bytesOf('ID;Name;Dept\n1001;Zoë;Küche\n1002;J\u00f6').slice(0, -1), /cut off/],
	'a record broken off': [bytesOf(list.slice(0, list.length - 20)), /cut off/]
};

describe('refused, with the place and what to do', () => {
	test.each(Object.entries(refused))('%s', (_, [bytes, message]) => {
		const faults = faultsOf(bytes);
		expect(faults.map(({ path }) => path)).toEqual(['$']);
		expect(faults[0]?.message).toMatch(message);
	});
});

describe('not refused', () => {
	test('a header without people', () => {
		const result = importRoster(bytesOf('ID;Name;Department\r\n'));
		expect(result.ok && result.value.people).toEqual([]);
	});
	test('a short last record of a short list, which may be meant', () => {
		const result = importRoster(bytesOf('ID;Name;Department\n1001;Ana;Packing\n1002;Ben'));
		expect(result.ok && result.value.problems.map(({ code }) => code)).toEqual(['cells-too-few']);
	});
	test('a long list that ends without a line end', () => {
		expect(faultsOf(bytesOf(list.trimEnd()))).toEqual([]);
	});
	test('a list whose end was filled with zeros', () => {
		const result = importRoster(Uint8Array.of(...bytesOf(list), ...new Uint8Array(500), 0x1a));
		expect(result.ok && [result.value.people.length, result.value.problems]).toEqual([40, []]);
	});
});

describe('whatever the bytes, there is an answer or a fault', () => {
	const check = (bytes: Uint8Array) => {
		const result = importRoster(bytes);
		if (result.ok) {
			const ids = result.value.people.map(({ id }) => id);
			expect(new Set(ids).size).toBe(ids.length);
			for (const { row } of result.value.problems) expect(row).toBeGreaterThan(0);
		} else for (const { path } of result.faults) expect(path).toBe('$');
	};

	test('random bytes', () => {
		fc.assert(fc.property(fc.uint8Array({ maxLength: 300 }), check), { numRuns: 1000 });
	});

	test('random bytes in a list', () => {
		const at = fc.nat(list.length);
		fc.assert(
			fc.property(
				fc.array(fc.tuple(at, fc.nat(255)), { maxLength: 20 }),
				fc.constantFrom('utf8', 'utf16le', 'utf16be'),
				(changes, encoding) => {
					const bytes = bytesOf(list, encoding);
					for (const [place, byte] of changes) bytes[place % bytes.length] = byte;
					check(bytes);
				}
			),
			{ numRuns: 300 }
		);
	});

	test('a list cut anywhere', () => {
		fc.assert(
			fc.property(fc.nat(list.length * 2), fc.constantFrom('utf8', 'utf16le', 'windows-1252'), (length, encoding) => {
				check(bytesOf(list, encoding).subarray(0, length));
			}),
			{ numRuns: 300 }
		);
	});

	test('text of delimiters, quotes and line ends', () => {
		const unit = fc.constantFrom('"', ',', ';', '\n', '\r', 'a', '1', ' ', 'ID,Name\n', 'ü', '=', '\t', '|');
		fc.assert(
			fc.property(fc.string({ unit, maxLength: 200 }), (text) => check(bytesOf(text))),
			{ numRuns: 1000 }
		);
	});
});
