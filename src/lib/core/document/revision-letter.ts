/** Letters that are not taken for figures or for each other. From memory: revision letters of ASME Y14.35. */
const letters = 'ABCDEFGHJKLMNPRTUVWY';

/**
 * The letter of an issued revision by its number from 1: A, B, …, Y, then AA. Without I, O, Q, S, X and Z.
 * Throws for a number below 1.
 */
export function revisionLetter(number: number): string {
	if (!Number.isInteger(number) || number < 1) throw new RangeError(`${number} is no number of a revision`);
	const last = letters[(number - 1) % letters.length] ?? '';
	const before = Math.floor((number - 1) / letters.length);
	return before === 0 ? last : revisionLetter(before) + last;
}

/** The number of a revision's letter; undefined for text that is none. */
export function revisionNumber(letter: string): number | undefined {
	let number = 0;
	for (const one of letter) {
		const place = letters.indexOf(one);
		if (place < 0) return undefined;
		number = number * letters.length + place + 1;
	}
	return letter === '' ? undefined : number;
}
