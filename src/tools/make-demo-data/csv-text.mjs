import { Buffer } from 'node:buffer';
import iconv from 'iconv-lite';

/**
 * Records as text, as RFC 4180 has it: a cell with a delimiter, a quote or a line end in quotes, quotes doubled.
 * @param {readonly (readonly string[])[]} records
 * @param {string} delimiter
 * @param {string} [lineEnd]
 */
export function csvText(records, delimiter, lineEnd = '\r\n') {
	/** @param {string} cell */
	const quoted = (cell) =>
		cell.includes(delimiter) || /["\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
	return records.map((record) => record.map(quoted).join(delimiter) + lineEnd).join('');
}

/** @param {string} text */
export function utf8(text) {
	return Buffer.from(text, 'utf8');
}

/** @param {string} text */
export function utf8WithMark(text) {
	return Buffer.from(`\ufeff${text}`, 'utf8');
}

/** Little-endian, with a byte order mark. @param {string} text */
export function utf16(text) {
	return Buffer.from(`\ufeff${text}`, 'utf16le');
}

/** Refuses letters that the encoding does not have. @param {string} text */
export function windows1252(text) {
	const bytes = iconv.encode(text, 'windows-1252');
	if (iconv.decode(bytes, 'windows-1252') !== text) throw new Error('a letter that windows-1252 does not have');
	return bytes;
}
