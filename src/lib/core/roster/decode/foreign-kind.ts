/** A kind of file that is no list in plain text, and what to do about it. */
export interface ForeignKind {
	readonly is: string;
	readonly remedy: string;
}

const saveAsCsv = 'Open it in a spreadsheet and save the sheet with the people as .xlsx or CSV (UTF-8)';
const unpack = 'Unpack it and bring in the list inside';
const exportAsCsv = 'Export the list as CSV instead';

/** The file within a file of older documents; workbooks of today are put in one when they are locked. */
const compound = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];

const locked: ForeignKind = {
	is: 'a workbook that is locked with a password',
	remedy: 'Open it in a spreadsheet, take the password off, and save it again'
};

/** True for a compound file that holds an encrypted package. @source MS-OFFCRYPTO 2.3.4.4 (the stream EncryptedPackage) */
function isLocked(bytes: Uint8Array): boolean {
	const name = Array.from('EncryptedPackage', (letter) => letter.charCodeAt(0));
	const last = Math.min(bytes.length - name.length * 2, 8_388_608);
	for (let at = 0; at <= last; at += 2) {
		if (name.every((code, index) => bytes[at + index * 2] === code && bytes[at + index * 2 + 1] === 0)) return true;
	}
	return false;
}

/** The first bytes by which a kind of file is known. */
const signatures: readonly (readonly [readonly number[], string, string])[] = [
	[[0x50, 0x4b, 0x05, 0x06], 'an empty zip archive', saveAsCsv],
	[compound, 'a workbook or document of the older binary kind', saveAsCsv],
	[[0x25, 0x50, 0x44, 0x46, 0x2d], 'a PDF document', exportAsCsv],
	[[0x1f, 0x8b], 'a gzip archive', unpack],
	[[0x42, 0x5a, 0x68], 'a bzip2 archive', unpack],
	[[0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c], 'a 7z archive', unpack],
	[[0xfd, 0x37, 0x7a, 0x58, 0x5a, 0x00], 'an xz archive', unpack],
	[[0x28, 0xb5, 0x2f, 0xfd], 'a zstd archive', unpack],
	[[0x52, 0x61, 0x72, 0x21, 0x1a, 0x07], 'a RAR archive', unpack],
	[[0x89, 0x50, 0x4e, 0x47], 'a picture', exportAsCsv],
	[[0xff, 0xd8, 0xff], 'a picture', exportAsCsv],
	[[0x47, 0x49, 0x46, 0x38], 'a picture', exportAsCsv],
	[[0x53, 0x51, 0x4c, 0x69, 0x74, 0x65, 0x20], 'a database file', exportAsCsv],
	[[0x7f, 0x45, 0x4c, 0x46], 'a program', exportAsCsv],
	[[0x50, 0x41, 0x52, 0x31], 'a data file of a binary kind', exportAsCsv]
];

/**
 * The kind of file that bytes are by their first ones, where that is none of plain text; undefined otherwise.
 * @source the signatures of the formats: APPNOTE.TXT 4.3.7 (zip), MS-CFB 2.2, ISO 32000-1 7.5.2 (PDF), RFC 1952 2.3.1
 * (gzip), RFC 8878 3.1.1 (zstd), ISO/IEC 15948 5.2 (PNG); the others from memory
 */
export function foreignKindOf(bytes: Uint8Array): ForeignKind | undefined {
	for (const [start, is, remedy] of signatures) {
		if (!start.every((byte, at) => bytes[at] === byte)) continue;
		return start === compound && isLocked(bytes) ? locked : { is, remedy };
	}
	return undefined;
}

const languages: readonly (readonly [RegExp, string, string])[] = [
	[/^\{\\rtf/, 'a text document with formatting (RTF)', exportAsCsv],
	[/^<(?:!doctype\s+html|html|table|head|body|meta|div|style)\b/i, 'a web page', saveAsCsv],
	[/^<\?xml|^<[A-Za-z_][\w.:-]*(?:\s[^<>]*)?>/, 'XML', exportAsCsv],
	[/^[[{]\s*(?:"|\{|\[|\]|\})/, 'JSON', exportAsCsv],
	[/^BEGIN:V(?:CALENDAR|CARD)\b/i, 'a calendar or address file', exportAsCsv],
	[/^(?:From|Received|MIME-Version|Return-Path):? /i, 'an e-mail message', exportAsCsv],
	[/^%!PS/, 'a PostScript document', exportAsCsv]
];

/** The language that text is written in, where that is one in which no delimited list begins; undefined otherwise. */
export function foreignLanguageOf(text: string): ForeignKind | undefined {
	const start = text.slice(0, 400).trimStart();
	for (const [form, is, remedy] of languages) {
		if (form.test(start)) return { is, remedy };
	}
	return undefined;
}
