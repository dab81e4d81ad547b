import iconv from 'iconv-lite';

/**
 * Which single-byte encoding of a script other than Latin some words are in: Cyrillic, Greek, Hebrew, Arabic. Each
 * candidate decodes the words. A letter of its script counts by how common it is there; a vowel beside a consonant
 * counts once more; a symbol, a letter of another script, a capital behind a small letter, a letter in a place where it
 * never stands count against it. The statistics of whole texts that libraries go by fail on a column of a few dozen names, and
 * this does not. Cost: candidates times characters. The method and its weights are ours.
 */

interface Script {
	/** Small letters: the most common, those in between; any other letter of the script is rare. */
	readonly common: string;
	readonly usual: string;
	readonly vowels: string;
	readonly isLetter: RegExp;
	/** Letters in the wrong place, found in a word of small letters. */
	readonly misplaced: RegExp;
}

const cyrillic: Script = {
	common: 'оеаинтсрвлкм',
	usual: 'дпуяыгзбчйхжшюцьёіїє',
	vowels: 'аеёиоуыэюяіїє',
	isLetter: /\p{Script=Cyrillic}/u,
	misplaced: /^[ьъы]|[ьъ][ьъы]/gu
};

const greek: Script = {
	common: 'αοιετσνηυρπκμλςάέήίόύώ',
	usual: 'γδθχωφβζϊ',
	vowels: 'αεηιουωάέήίόύώϊϋΐΰ',
	isLetter: /\p{Script=Greek}/u,
	misplaced: /ς(?=\p{L})|σ$|[άέήίόύώΐΰ](?=\p{L}*[άέήίόύώΐΰ])/gu
};

const hebrew: Script = {
	common: 'יוהלארמתבשנ',
	usual: 'דחקעפגכסזטצםןץךף',
	vowels: '',
	isLetter: /\p{Script=Hebrew}/u,
	misplaced: /[םןץךף](?=\p{L})|[מנצכ]$/gu
};

const arabic: Script = {
	common: 'المينروبتدهةسعح',
	usual: 'فقكشجخصطأإضزثغىءئؤظذآ',
	vowels: '',
	isLetter: /\p{Script=Arabic}/u,
	misplaced: /[ةى](?=\p{L})/gu
};

/** Labels as answered: WHATWG, lower case. Among equals the earlier is taken. */
const candidates: readonly (readonly [string, Script])[] = [
	['windows-1251', cyrillic],
	['iso-8859-5', cyrillic],
	['koi8-r', cyrillic],
	['ibm866', cyrillic],
	['iso-8859-7', greek],
	['windows-1253', greek],
	['iso-8859-8', hebrew],
	['windows-1255', hebrew],
	['iso-8859-6', arabic],
	['windows-1256', arabic]
];

/** Below this mean for each character beyond ASCII it is none of these scripts. */
const leastMean = 0.7;

/** The encoding that explains words (with all their bytes from 0x80 on) best; undefined where none does well. */
export function otherLettersOf(words: readonly Uint8Array[]): string | undefined {
	let best: string | undefined;
	let bestMean = leastMean;
	for (const [encoding, script] of candidates) {
		let sum = 0;
		let count = 0;
		for (const word of words) {
			const judged = judgedWord(iconv.decode(word, encoding), script);
			sum += judged.sum;
			count += judged.count;
		}
		if (count > 0 && sum / count > bestMean) {
			best = encoding;
			bestMean = sum / count;
		}
	}
	return best;
}

function judgedWord(word: string, { common, usual, vowels, isLetter, misplaced }: Script) {
	const small = word.toLowerCase();
	let sum = 0;
	let count = 0;
	for (let at = 0; at < word.length; at++) {
		const char = word.charAt(at);
		if (char < '\u0080') continue;
		count++;
		const letter = small.charAt(at);
		if (char < '\u00a0' || !isLetter.test(char)) {
			sum -= /[\u00a0«»№’–—]/.test(char) ? 0 : 1.5;
			continue;
		}
		sum += common.includes(letter) ? 1 : usual.includes(letter) ? 0.6 : 0.2;
		const before = word.charAt(at - 1);
		if (!isLetter.test(before)) continue;
		if (before === small.charAt(at - 1) && char !== letter) sum -= 1.5;
		if (vowels !== '' && vowels.includes(letter) !== vowels.includes(small.charAt(at - 1))) sum += 0.2;
	}
	return { sum: sum - 1.5 * (small.match(misplaced)?.length ?? 0), count };
}
