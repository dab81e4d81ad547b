import iconv from 'iconv-lite';

/**
 * Which single-byte encoding of the Latin script some words are in. Each candidate decodes the words, and each character
 * that is not ASCII is judged by its neighbors: a letter that its languages use counts for the candidate; a symbol inside
 * a word, a capital behind a small letter, or a letter in a place where its language never has it counts against it. The
 * candidate with the best sum wins, the earlier in the list among equals (`é`, `ö`, `ß` are the same byte in most of
 * them, and then it does not matter which one it is). Cost: candidates times words. The method and its weights are ours.
 */

interface Candidate {
	/** Label as answered: WHATWG, lower case; where WHATWG has none, IANA. */
	readonly encoding: string;
	/** Letters that are common in the languages written in it, small ones. */
	readonly letters: string;
	/** Letters that are in the wrong place when this matches from the letter on. */
	readonly misplaced: RegExp;
}

/** Languages of Western Europe are often mixed in one list; those of Central Europe are told apart by their letters. */
const western = 'äöüßéèêëàâáíóúñçîïôûùòåæøãõœ';
const icelandic = 'áðéíóúýþæö';
const central = ['ąćęłńóśźż', 'áčďéěíňóřšťúůýžäôľŕ', 'áéíóöőúüű', 'ăâîşţșț', 'čćđšž'];
const turkish = 'çğıöşüâîûİ';

const misplacedWestern = /^(?:ñ(?![aeiouáéíóúy])|œ(?![uid])|ù\p{L}|æ$|ø[oa]|õ[^e]|þ$)/u;
const misplacedCentral = /^(?:ń[aeiouyó]|ř[rnlmgvd]|[ďť][b-df-hj-np-tv-xz]|ő[e]|ň[iíeě]|ŕ$)/u;
const misplacedTurkish = /^ğ[b-df-hj-kn-qtv-xz]/u;

const candidates: readonly Candidate[] = [
	...[western, icelandic].map((letters) => ({ encoding: 'windows-1252', letters, misplaced: misplacedWestern })),
	...['windows-1250', 'iso-8859-2'].flatMap((encoding) =>
		central.map((letters) => ({ encoding, letters, misplaced: misplacedCentral }))
	),
	{ encoding: 'iso-8859-15', letters: `${western}šž`, misplaced: misplacedWestern },
	{ encoding: 'windows-1254', letters: turkish, misplaced: misplacedTurkish },
	{ encoding: 'macintosh', letters: western, misplaced: misplacedWestern },
	{ encoding: 'ibm850', letters: western, misplaced: misplacedWestern }
];

const centralEncodings = new Set(['windows-1250', 'iso-8859-2']);
const oldSystems = new Set(['macintosh', 'ibm850']);

/**
 * The encoding that explains words (with all their bytes from 0x80 on) best. `isCentral` says that the ASCII words
 * around them speak for a language of Central Europe.
 */
export function latinEncodingOf(words: readonly Uint8Array[], isCentral: boolean): string {
	let best = 'windows-1252';
	let bestSum = -Infinity;
	for (const { encoding, letters, misplaced } of candidates) {
		// İ and ẞ are more than one letter in the other case, and rare.
		const known = new Set(letters + letters.toUpperCase());
		let sum = isCentral && centralEncodings.has(encoding) ? 0.75 : oldSystems.has(encoding) ? -0.75 : 0;
		// ý, ð and þ are ı, ğ and ş in Turkish, which more people write.
		if (letters === icelandic) sum -= 0.5;
		for (const word of words) sum += judgedWord(iconv.decode(word, encoding), known, misplaced);
		if (sum > bestSum) {
			best = encoding;
			bestSum = sum;
		}
	}
	return best;
}

function judgedWord(word: string, known: ReadonlySet<string>, misplaced: RegExp): number {
	const isMixed = small.test(word);
	let sum = 0;
	for (let at = 0; at < word.length; at++) {
		const char = word.charAt(at);
		if (char < '\u0080') continue;
		const before = word.charAt(at - 1);
		const isInside = isMixed && capital.test(before) && capital.test(char);
		sum += isInside ? -1.5 : judged(char, before, word.charAt(at + 1), known);
		if (placed.has(char) && misplaced.test(word.slice(at, at + 3).toLowerCase())) sum -= 1.5;
	}
	return sum;
}

/** The letters, small and capital, that have places where they never stand. */
const placed = new Set('ñœùæøõþńřďťőňŕğÑŒÙÆØÕÞŃŘĎŤŐŇŔĞ');

const letter = /\p{L}/u;
const small = /\p{Ll}/u;
const capital = /\p{Lu}/u;
const opening = '“„‘«‹';
const closing = '”’»›…™®';

function judged(char: string, before: string, after: string, known: ReadonlySet<string>): number {
	if (char < '\u00a0' || char === '\ufffd') return -5;
	const afterLetter = letter.test(before);
	const beforeLetter = letter.test(after);
	if (!letter.test(char) || char === 'º' || char === 'ª') {
		if ((char === 'º' || char === '°') && /[nN]/.test(before) && !beforeLetter) return 1;
		if ('’‘ʼ·–—\u00a0'.includes(char)) return 0.3;
		if (opening.includes(char) && !afterLetter) return 0.3;
		if (closing.includes(char) && !beforeLetter) return 0.3;
		return afterLetter && beforeLetter ? -2 : beforeLetter ? -1 : afterLetter ? -0.5 : 0.3;
	}
	if (small.test(before) && capital.test(char)) return -1.5;
	if (small.test(char) && capital.test(after)) return -1.5;
	if (!afterLetter && !beforeLetter && !'àóÀÓ'.includes(char)) return -1;
	return known.has(char) ? 1 : 0.2;
}
