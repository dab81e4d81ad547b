/** Headers as they are compared: what differs between writers, and not in meaning, is taken away. */

const letters: Readonly<Record<string, string>> = {
	ß: 'ss',
	ł: 'l',
	đ: 'd',
	ø: 'o',
	æ: 'ae',
	œ: 'oe',
	þ: 'th',
	ı: 'i'
};

/** Abbreviations of words that stand in many headers. */
const abbreviations: Readonly<Record<string, string>> = { dt: 'date', nbr: 'no', nmbr: 'number' };

/**
 * The words of a header: small letters without accents, no punctuation, `EmployeeID` and `start_date` taken apart, notes
 * in brackets left out (`Eintritt (TT.MM.JJJJ)`).
 */
export function tokensOf(header: string): string[] {
	const plain = header
		.replace(/[([{<][^)\]}>]*[)\]}>]?/g, ' ')
		.replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
		.replace(/(\p{Lu})(\p{Lu}\p{Ll})/gu, '$1 $2')
		.replace(/(?<=\b[nN])[°º]/g, 'o ')
		.toLowerCase()
		.normalize('NFKD')
		.replace(/\p{M}/gu, '')
		.replace(/[ßłđøæœþı]/g, (letter) => letters[letter] ?? letter)
		.replace(/#/g, ' no ')
		.replace(/&/g, ' ');
	const tokens = plain.split(/[^\p{L}\p{N}]+/u).filter((token) => token !== '');
	return tokens.map((token) => (Object.hasOwn(abbreviations, token) ? abbreviations[token] : undefined) ?? token);
}

const smallWords = new Set([
	...['of', 'the', 'in', 'at', 'on', 'for', 'and'],
	...['de', 'du', 'des', 'd', 'la', 'le', 'les', 'l', 'et', 'en'],
	...['der', 'die', 'das', 'dem', 'den', 'und', 'am', 'im', 'vom', 'zum'],
	...['del', 'los', 'las', 'el', 'y', 'e', 'al'],
	...['w', 'we', 'z', 'i', 'na']
]);

/** The words of a header without the small ones between, as long as any is left. */
export function withoutSmallWords(tokens: readonly string[]): readonly string[] {
	const kept = tokens.filter((token) => !smallWords.has(token));
	return kept.length === 0 ? tokens : kept;
}

/** The letters of a header, all words run together. */
export function lettersInOrder(tokens: readonly string[]): string {
	return tokens.join('');
}

/**
 * The letters of the words that carry meaning, in alphabetical order of the words, so that `Date of hire` and `hire date`
 * are alike. Undefined for a header too short to be put in another order.
 */
export function lettersInAnyOrder(tokens: readonly string[]): string | undefined {
	const main = withoutSmallWords(tokens);
	return main.length > 1 || main.join('').length > 3 ? [...main].sort().join(' ') : undefined;
}
