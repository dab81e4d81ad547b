const suffixes =
	/^(?:jr|sr|junior|senior|ii|iii|iv|ph\.? ?d|m\.? ?d|mba|m\.? ?sc|b\.? ?sc|m\.? ?a|b\.? ?a|dr|prof|dipl.*|ing|esq|cpa|rn)\.?$/i;

/** Family and given name of `Last, First`; undefined for a name that is not written so (`Ruiz, Jr.` is not). */
function lastFirst(name: string): readonly [string, string] | undefined {
	if (!name.includes(',')) return undefined;
	const parts = name.split(',').map((part) => part.trim());
	const [last = '', first = ''] = parts;
	if (parts.length !== 2 || last === '' || first === '' || suffixes.test(first) || /\d/.test(name)) return undefined;
	return [last, first];
}

/**
 * Whether the names of a column are written family name first with a comma: the header says so (`isFamilyFirst`) and
 * they have one, or all but a few of at least three do. One name with a comma among others proves nothing.
 */
export function areLastFirst(names: readonly string[], isFamilyFirst: boolean): boolean {
	const turned = names.filter((name) => lastFirst(name) !== undefined).length;
	if (turned === 0) return false;
	return isFamilyFirst || (names.length >= 3 && turned * 20 >= names.length * 19);
}

/** `Last, First` as `First Last`; any other name as it is written. */
export function turnedName(name: string): string {
	const parts = lastFirst(name);
	return parts === undefined ? name : `${parts[1]} ${parts[0]}`;
}

/** A name for comparing: without case, accents kept, one space between words. */
export function foldedName(name: string): string {
	return turnedName(name).normalize('NFC').toLowerCase().replace(/\s+/g, ' ');
}
