/** What the bytes of a file look like, before anybody asks in which encoding it is. */
export interface ByteSurvey {
	/** Characters of two to four bytes that are well-formed UTF-8. */
	readonly validSequences: number;
	/** Bytes from 0x80 on that no well-formed sequence explains. */
	readonly strayBytes: number;
	/** True when the last character is one of several bytes, well-formed so far, and not whole. */
	readonly endsInsideCharacter: boolean;
}

/**
 * Counts what of the bytes is well-formed UTF-8 and what is not. One pass, no memory.
 * @source The Unicode Standard, table 3-7 (well-formed UTF-8 byte sequences); RFC 3629, section 4
 */
export function surveyUtf8(bytes: Uint8Array): ByteSurvey {
	let validSequences = 0;
	let strayBytes = 0;
	let endsInsideCharacter = false;
	let at = 0;
	while (at < bytes.length) {
		if ((bytes[at] ?? 0) < 0x80) {
			at++;
			continue;
		}
		const length = sequenceLength(bytes, at);
		if (length > 0) {
			validSequences++;
			at += length;
		} else if (length < 0 && at - length === bytes.length) {
			endsInsideCharacter = true;
			break;
		} else {
			strayBytes++;
			at++;
		}
	}
	return { validSequences, strayBytes, endsInsideCharacter };
}

/**
 * The length of the well-formed sequence that starts at a byte; 0 where none does. Where the bytes end before the
 * sequence does, minus the number of bytes there are.
 */
export function sequenceLength(bytes: Uint8Array, start: number): number {
	const lead = bytes[start] ?? 0;
	const length = lead < 0x80 ? 1 : lead < 0xc2 ? 0 : lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : lead < 0xf5 ? 4 : 0;
	for (let offset = 1; offset < length; offset++) {
		const byte = bytes[start + offset];
		if (byte === undefined) return -offset;
		const least = offset > 1 ? 0x80 : lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80;
		const most = offset > 1 ? 0xbf : lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf;
		if (byte < least || byte > most) return 0;
	}
	return length;
}

/**
 * `utf-16le` or `utf-16be` where the bytes have no mark and yet are UTF-16: the zero bytes of the delimiters, digits and
 * Latin letters stand all on one side of the pairs. Undefined otherwise.
 */
export function utf16WithoutMark(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | undefined {
	const end = Math.min(bytes.length, 65_536) & ~1;
	if (end < 4) return undefined;
	let evenZeros = 0;
	let oddZeros = 0;
	for (let at = 0; at < end; at += 2) {
		if (bytes[at] === 0) evenZeros++;
		if (bytes[at + 1] === 0) oddZeros++;
	}
	const enough = end / 2 / 20;
	if (oddZeros > enough && evenZeros * 20 <= oddZeros) return 'utf-16le';
	if (evenZeros > enough && oddZeros * 20 <= evenZeros) return 'utf-16be';
	return undefined;
}

/**
 * True for bytes that are no text in an encoding of single bytes or UTF-8: more than one in fifty is a control
 * character, in any of the places looked at (the start, and some more of a long file).
 */
export function isNoise(bytes: Uint8Array): boolean {
	if (isNoisy(bytes.subarray(0, 65_536))) return true;
	for (let place = 1; place <= 8 && bytes.length > 131_072; place++) {
		const start = Math.floor(((bytes.length - 8192) * place) / 8);
		if (isNoisy(bytes.subarray(start, start + 8192))) return true;
	}
	return false;
}

function isNoisy(part: Uint8Array): boolean {
	let controls = 0;
	for (const byte of part) {
		if (
			(byte < 0x20 && byte !== 0x09 && byte !== 0x0a && byte !== 0x0d && byte !== 0x0b && byte !== 0x0c) ||
			byte === 0x7f
		) {
			controls++;
		}
	}
	return controls * 50 > part.length;
}

/** The bytes without the zeros and end-of-file marks (0x1A) that some systems fill the end of a file with. */
export function withoutFilling(bytes: Uint8Array): Uint8Array {
	let end = bytes.length;
	while (end > 0 && (bytes[end - 1] === 0 || bytes[end - 1] === 0x1a)) end--;
	return bytes.subarray(0, end);
}
