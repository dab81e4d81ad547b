import { analyse } from 'chardet';
import iconv from 'iconv-lite';
import { surveyUtf8, utf16WithoutMark } from './byte-survey';
import { latinEncodingOf } from './latin-letters';
import { otherLettersOf } from './other-letters';

/** The encoding that a file is most likely in. */
export interface DetectedEncoding {
	/** WHATWG label, lower case. */
	readonly encoding: string;
	/** True when the file ends inside a character. */
	readonly isCutOff: boolean;
}

const marks: readonly (readonly [string, readonly number[]])[] = [
	['utf-32le', [0xff, 0xfe, 0x00, 0x00]],
	['utf-32be', [0x00, 0x00, 0xfe, 0xff]],
	['utf-8', [0xef, 0xbb, 0xbf]],
	['utf-16le', [0xff, 0xfe]],
	['utf-16be', [0xfe, 0xff]]
];

/**
 * Finds the encoding of text: by its byte order mark; by the zeros of UTF-16; as UTF-8 where that explains most of the
 * bytes beyond ASCII; else by the letters that each single-byte encoding would make of them, and by the statistics of
 * chardet where that makes no words either. chardet's `ISO-8859-1` is windows-1252.
 * @source byte order marks: The Unicode Standard, section 23.8; labels: WHATWG Encoding, section 4.2
 */
export function detectEncoding(bytes: Uint8Array): DetectedEncoding {
	const mark = marks.find(([, start]) => start.every((byte, at) => bytes[at] === byte));
	if (mark !== undefined && mark[0] !== 'utf-8') return whole(mark[0], bytes.length % unitOf(mark[0]) !== 0);
	const wide = mark === undefined ? utf16WithoutMark(bytes) : undefined;
	if (wide !== undefined) return whole(wide, bytes.length % 2 !== 0);

	const { validSequences, strayBytes, endsInsideCharacter } = surveyUtf8(bytes);
	const isUtf8 = mark !== undefined || strayBytes === 0 ? !isLoneEnd() : validSequences >= strayBytes;
	if (isUtf8) return whole('utf-8', endsInsideCharacter);
	return whole(legacyEncodingOf(bytes), false);

	// One accented letter at the very end of an otherwise plain file is no proof of UTF-8.
	function isLoneEnd(): boolean {
		return mark === undefined && endsInsideCharacter && validSequences === 0;
	}
}

function whole(encoding: string, isCutOff: boolean): DetectedEncoding {
	return { encoding, isCutOff };
}

function unitOf(encoding: string): number {
	return encoding.startsWith('utf-32') ? 4 : 2;
}

const mostWords = 2000;

function legacyEncodingOf(bytes: Uint8Array): string {
	const words = wordsBeyondAscii(bytes);
	const isOther = runsOfHighBytes(words) > 0.45;
	const other = isOther ? (otherLettersOf(words) ?? otherScript(bytes, words)) : undefined;
	return other ?? latinEncodingOf(words, isPolish(bytes));
}

/** Words that hold a byte from 0x80 on, with the letters around it. */
function wordsBeyondAscii(bytes: Uint8Array): Uint8Array[] {
	const words: Uint8Array[] = [];
	let at = 0;
	while (at < bytes.length && words.length < mostWords) {
		if ((bytes[at] ?? 0) < 0x80) {
			at++;
			continue;
		}
		let start = at;
		while (start > 0 && at - start < 24 && isWordByte(bytes[start - 1] ?? 0)) start--;
		let end = at + 1;
		while (end < bytes.length && end - at < 24 && isWordByte(bytes[end] ?? 0)) end++;
		words.push(bytes.subarray(start, end));
		at = end;
	}
	return words;
}

function isWordByte(byte: number): boolean {
	return byte >= 0x80 || (byte >= 0x41 && byte <= 0x5a) || (byte >= 0x61 && byte <= 0x7a);
}

/** The share of bytes from 0x80 on that stand three or more in a row: rare in Latin scripts, the rule in others. */
function runsOfHighBytes(words: readonly Uint8Array[]): number {
	let inRuns = 0;
	let all = 0;
	for (const word of words) {
		let run = 0;
		for (let at = 0; at <= word.length; at++) {
			if ((word[at] ?? 0) >= 0x80) run++;
			else {
				all += run;
				if (run >= 3) inRuns += run;
				run = 0;
			}
		}
	}
	return all === 0 ? 0 : inRuns / all;
}

const latinNames = new Set(['ISO-8859-1', 'ISO-8859-2', 'ISO-8859-9', 'windows-1250', 'windows-1252', 'windows-1254']);
const notLegacy = /^(?:ASCII|UTF|ISO-2022|ISO_2022)/;

function otherScript(bytes: Uint8Array, words: readonly Uint8Array[]): string | undefined {
	// The words with their neighbors, so that the statistics are not drowned in digits and plain columns.
	const sample = words.length < 400 ? bytes.subarray(0, 65_536) : joined(words);
	for (const { name } of analyse(sample)) {
		if (latinNames.has(name) || notLegacy.test(name)) continue;
		if (shareOfLetters(iconv.decode(joined(words), name)) > 0.9) return name.toLowerCase();
	}
	return undefined;
}

/** The share of letters among the characters beyond ASCII: a wrong guess makes symbols of them. */
function shareOfLetters(text: string): number {
	const beyond = text.match(/[^\0-\x7f]/gu) ?? [];
	return beyond.filter((char) => /[\p{L}\p{M}]/u.test(char)).length / Math.max(1, beyond.length);
}

function joined(words: readonly Uint8Array[]): Uint8Array {
	const sample = new Uint8Array(words.reduce((sum, word) => sum + word.length + 1, 0)).fill(0x20);
	let at = 0;
	for (const word of words) {
		sample.set(word, at);
		at += word.length + 1;
	}
	return sample;
}

const polishWords = /nazwisko|imi\S|stanowisko|pracowni|zatrudni|zmian[ay]|wydzia|brygada|ewidencyjny/i;

/** True when the header has words of Polish, which is written in the encodings of Central Europe. */
function isPolish(bytes: Uint8Array): boolean {
	let start = '';
	for (const byte of bytes.subarray(0, 2000)) start += String.fromCharCode(byte);
	return polishWords.test(start);
}
