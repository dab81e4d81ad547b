import { strToU8, zipSync } from 'fflate';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { importRoster } from '../import-roster';
import { workbookBytes } from '../../../../../tests/support/workbooks';
import { crc32 } from './crc32';

const rows = [
	['ID', 'Name', 'Department'],
	...Array.from({ length: 60 }, (_, index) => [1000 + index, `Ana ${index % 7}`, 'Packing'])
];
const whole = workbookBytes({ sheets: [{ rows }] });
const faultOf = (bytes: Uint8Array): string => {
	const result = importRoster(bytes);
	if (result.ok) return 'read';
	expect(result.faults.map(({ path }) => path)).toEqual(['$']);
	return result.faults[0]?.message ?? '';
};
const zip = (files: Record<string, string>) =>
	zipSync(Object.fromEntries(Object.entries(files).map(([name, text]) => [name, strToU8(text)])));
/** The archive with a number of its directory changed, in each entry whose name ends so. */
function withDirectory(bytes: Uint8Array, name: string, change: (view: DataView, entry: number) => void): Uint8Array {
	const copy = bytes.slice();
	const view = new DataView(copy.buffer);
	for (let at = 0; at + 46 < copy.length; at++) {
		if (view.getUint32(at, true) !== 0x02014b50) continue;
		const length = view.getUint16(at + 28, true);
		if (new TextDecoder().decode(copy.subarray(at + 46, at + 46 + length)).endsWith(name)) change(view, at);
	}
	return copy;
}

/** A workbook whose sheet has one row of cells, as they are written in it. */
function sheetWith(cells: string): Uint8Array {
	const sheet = `<worksheet><sheetData><row r="1">${cells}</row></sheetData></worksheet>`;
	return workbookBytes({ sheets: [{ rows }], parts: { 'xl/worksheets/sheet1.xml': sheet } });
}

test('the checksum has its check value (ISO 3309)', () => {
	expect(crc32(strToU8('123456789'))).toBe(0xcbf43926);
});

const refused: Record<string, readonly [Uint8Array, RegExp]> = {
	'one cut off': [whole.subarray(0, whole.length - 100), /cut off/],
	'one cut in the middle': [whole.subarray(0, whole.length / 2), /cut off/],
	'a zip archive of other files': [zip({ 'staff.csv': 'ID,Name\n1,Ana\n' }), /no workbook.*Unpack it/],
	'a text document': [
		zip({
			'word/document.xml': '<document/>',
			'_rels/.rels':
				'<Relationships><Relationship Id="a" Type="http://x/officeDocument" Target="word/document.xml"/></Relationships>'
		}),
		/text document/
	],
	'a document in the OpenDocument format': [zip({ mimetype: 'x', 'content.xml': '<a/>' }), /OpenDocument/],
	'one of the binary kind': [
		zip({
			'xl/workbook.bin': 'x',
			'_rels/.rels':
				'<Relationships><Relationship Id="a" Type="http://x/officeDocument" Target="xl/workbook.bin"/></Relationships>'
		}),
		/xlsb/
	],
	'one without its sheet': [
		workbookBytes({ sheets: [{ rows, name: 'Staff' }], parts: { 'xl/worksheets/sheet1.xml': null } }),
		/lacks its sheet \\"Staff\\"/
	],
	'one without its list of sheets': [
		workbookBytes({ sheets: [{ rows }], parts: { 'xl/workbook.xml': null } }),
		/list of sheets/
	],
	'one without its texts': [
		workbookBytes({ sheets: [{ rows }], parts: { 'xl/sharedStrings.xml': null } }),
		/texts which the workbook does not hold/
	],
	'one with XML that ends too early': [
		workbookBytes({ sheets: [{ rows }], parts: { 'xl/worksheets/sheet1.xml': '<worksheet><sheetData><row r="1">' } }),
		/damaged part/
	],
	'rows in no order': [
		workbookBytes({
			sheets: [{ rows }],
			parts: { 'xl/worksheets/sheet1.xml': '<worksheet><sheetData><row r="2"/><row r="1"/></sheetData></worksheet>' }
		}),
		/no order/
	],
	'a row beyond the last': [
		workbookBytes({
			sheets: [{ rows }],
			parts: { 'xl/worksheets/sheet1.xml': '<worksheet><sheetData><row r="4000000000"/></sheetData></worksheet>' }
		}),
		/no order/
	],
	'a cell in no column': [sheetWith('<c r="2"><v>7</v></c>'), /in no column/],
	'two cells in one place': [sheetWith('<c r="A1"><v>7</v></c><c r="A1"><v>8</v></c>'), /two cells in one place/],
	'a part locked with a password': [
		withDirectory(whole, 'sheet1.xml', (view, at) => view.setUint16(at + 8, 1, true)),
		/locked with a password/
	],
	'a part packed in a way that is not read': [
		withDirectory(whole, 'sheet1.xml', (view, at) => view.setUint16(at + 10, 12, true)),
		/not read \(12\)/
	],
	'a part of another checksum': [
		withDirectory(whole, 'sheet1.xml', (view, at) => view.setUint32(at + 16, 7, true)),
		/damaged/
	],
	'a part that unpacks to more than it says': [
		withDirectory(whole, 'sheet1.xml', (view, at) => view.setUint32(at + 24, 100, true)),
		/damaged/
	],
	'a part that says it unpacks to 4 GB': [
		withDirectory(whole, 'sheet1.xml', (view, at) => view.setUint32(at + 24, 0xfffffff0, true)),
		/unpacks to more than/
	],
	'a workbook in a locked package': [
		Uint8Array.of(
			...[0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1],
			...new Uint8Array(600),
			...[...'EncryptedPackage'].flatMap((letter) => [letter.charCodeAt(0), 0]),
			...new Uint8Array(600)
		),
		/locked with a password/
	],
	'an older workbook': [
		Uint8Array.of(...[0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1], ...new Uint8Array(600)),
		/older binary kind/
	]
};

describe('refused with the reason', () => {
	test.each(Object.entries(refused))('%s', (_, [bytes, message]) => expect(faultOf(bytes)).toMatch(message));
});

test('a part that was made to fill the memory is refused before it does', () => {
	const bomb = zipSync({ 'xl/workbook.xml': new Uint8Array(400 * 1024 * 1024) }, { level: 9 });
	expect(bomb.length).toBeLessThan(1_000_000);
	expect(faultOf(bomb)).toMatch(/unpacks to more than/);
});

test('entities that stand for one another are not resolved', () => {
	const entities = `<!DOCTYPE a [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "${'&a;'.repeat(50)}"><!ENTITY c "${'&b;'.repeat(50)}">]>`;
	const cell = (place: string, text: string) => `<c r="${place}" t="inlineStr"><is><t>${text}</t></is></c>`;
	const sheet = `${entities}<worksheet><sheetData><row r="1">${cell('A1', 'ID')}${cell('B1', 'Name')}</row><row r="2">${cell('A2', '7')}${cell('B2', 'Ana &c; Ruiz')}</row></sheetData></worksheet>`;
	const result = importRoster(workbookBytes({ sheets: [{ rows }], parts: { 'xl/worksheets/sheet1.xml': sheet } }));
	expect(result.ok && result.value.people[0]?.name).toBe('Ana &c; Ruiz');
});

test('one byte changed anywhere is refused, or changes nothing that is read', () => {
	const people = JSON.stringify(importRoster(whole));
	fc.assert(
		fc.property(fc.nat(whole.length - 1), fc.integer({ min: 1, max: 255 }), (at, change) => {
			const bytes = whole.slice();
			bytes[at] = (bytes[at] ?? 0) ^ change;
			const result = importRoster(bytes);
			if (result.ok) expect(JSON.stringify(result)).toBe(people);
		}),
		{ numRuns: 300 }
	);
});

test('a workbook cut anywhere is refused', () => {
	fc.assert(
		fc.property(fc.nat(whole.length - 1), (length) => {
			expect(importRoster(whole.subarray(0, length)).ok).toBe(false);
		}),
		{ numRuns: 100 }
	);
});
