import iconv from 'iconv-lite';
import { fault } from '../../kernel/fault';
import { type Result, ok, refused } from '../../kernel/result';
import { isNoise, sequenceLength, withoutFilling } from './byte-survey';
import { detectEncoding } from './detect-encoding';
import { foreignKindOf, foreignLanguageOf } from './foreign-kind';

/** The text of a roster. */
export interface DecodedRoster {
	/** WHATWG label, lower case. */
	readonly encoding: string;
	readonly text: string;
	/** True when `isDoubtful` holds for some of the text. */
	readonly hasDoubt: boolean;
}

/** What a file must be, said in every fault about one that is not. */
export const rosterExpected =
	'a list of people: a workbook (.xlsx), or plain text with cells separated by comma, semicolon, tab or |';

/**
 * Decodes the bytes of a roster; `wanted` overrules the encoding that is recognized. Bytes that the encoding does not
 * explain stay apart as lone surrogates from U+DC80 on (as `isDoubtful` finds them), so that none is lost or invented.
 * Refuses bytes that are empty, no text, text of another kind, or cut off inside a character.
 */
export function decodeRoster(given: Uint8Array, wanted: string | undefined): Result<DecodedRoster> {
	if (given.length === 0) return no('an empty file', `${rosterExpected}; there is nothing in this file`);
	const foreign = foreignKindOf(given);
	if (foreign) return no(foreign.is, `${rosterExpected}. ${foreign.remedy}`);
	const { encoding: detected, isCutOff } = detectEncoding(given);
	const encoding = wanted ?? detected;
	const isWide = /^utf-?(?:16|32)/.test(encoding);
	if (!isWide && isNoise(withoutFilling(given))) {
		return no(`${given.length} bytes that are no text`, `${rosterExpected}. Export the list again as CSV (UTF-8)`);
	}
	if (isCutOff && encoding === detected) {
		return no('a file that ends inside a character', 'a whole file; this one is cut off. Export or send it again');
	}
	const text = decodeAs(encoding, isWide ? given : withoutFilling(given));
	const language = foreignLanguageOf(text);
	if (language) return no(language.is, `${rosterExpected}. ${language.remedy}`);
	if (text.trim() === '') return no('a file without text', `${rosterExpected}; there is nothing in this file`);
	return ok({ encoding, text, hasDoubt: isDoubtful(text) });
}

function no(found: string, expected: string): Result<never> {
	return refused([fault([], found, expected)]);
}

/** The label of an encoding that can be decoded, in the one spelling that answers use; undefined for any other. */
export function encodingLabel(name: string): string | undefined {
	try {
		return new TextDecoder(name).encoding;
	} catch {
		const label = name.trim().toLowerCase();
		return label !== '' && iconv.encodingExists(label) && !/^(?:base64|hex|binary|ucs2|internal|utf-?7)/.test(label)
			? label
			: undefined;
	}
}

/** Single-byte encodings are left to iconv-lite: some TextDecoders read 0x80 to 0x9F of windows-1252 as controls. */
const byTextDecoder = /^(?:utf-16|gb|big5|euc|shift_jis|iso-2022)/;

function decodeAs(encoding: string, bytes: Uint8Array): string {
	if (encoding === 'utf-8') return decodeUtf8(bytes);
	if (byTextDecoder.test(encoding)) return new TextDecoder(encoding).decode(bytes);
	const text = iconv.decode(bytes, encoding);
	return text.includes('\ufffd') && text.length === bytes.length ? withBytesKept(text, bytes) : text;
}

/** UTF-8 in which a byte that is part of no well-formed sequence becomes the lone surrogate U+DC00 + byte. */
function decodeUtf8(bytes: Uint8Array): string {
	const decoder = new TextDecoder('utf-8', { fatal: true });
	try {
		return decoder.decode(bytes);
	} catch {
		const parts: string[] = [];
		let start = 0;
		for (let at = 0; at < bytes.length;) {
			const length = sequenceLength(bytes, at);
			if (length > 0) {
				at += length;
				continue;
			}
			parts.push(decodedPart(bytes.subarray(start, at), start), String.fromCharCode(0xdc00 + (bytes[at] ?? 0)));
			start = ++at;
		}
		parts.push(decodedPart(bytes.subarray(start), start));
		return parts.join('');
	}
}

/** Only the mark at the start of the file is a mark; everywhere else it is a character. */
function decodedPart(bytes: Uint8Array, start: number): string {
	return new TextDecoder('utf-8', { ignoreBOM: start > 0 }).decode(bytes);
}

function withBytesKept(text: string, bytes: Uint8Array): string {
	let kept = '';
	let start = 0;
	for (let at = text.indexOf('\ufffd'); at >= 0; at = text.indexOf('\ufffd', at + 1)) {
		kept += text.slice(start, at) + String.fromCharCode(0xdc00 + (bytes[at] ?? 0));
		start = at + 1;
	}
	return kept + text.slice(start);
}

const doubtful = /[\u0000-\u0008\u000e-\u001f\u007f-\u0084\u0086-\u009f\ufffd]|\p{Cs}/u;

/**
 * True for text with something that its encoding does not explain: a byte that was kept apart, a control character, or
 * the mark of a character that was lost before the file was written.
 */
export function isDoubtful(text: string): boolean {
	return doubtful.test(text);
}

/** Text with every byte that was kept apart shown as windows-1252 has it, for messages. */
export function withBytesShown(text: string): string {
	return text.replace(/[\udc80-\udcff]/gu, (kept) =>
		iconv.decode(Uint8Array.of(kept.charCodeAt(0) - 0xdc00), 'windows-1252')
	);
}
