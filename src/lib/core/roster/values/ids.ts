/** Why an id looks like what a spreadsheet made of one. */
export interface Damage {
	readonly why: string;
	/** What it may have been, where that can be told. */
	readonly likely: string | undefined;
}

/** What the ids of a column look like as a whole. */
export interface IdColumn {
	/** How many characters the ids with leading zeros have, where they agree; undefined otherwise. */
	readonly paddedLength: number | undefined;
	/** Most ids are digits alone (or were, before they got decimals). */
	readonly isDigits: boolean;
	/** Many ids look like a month and a number, so that this is their own form. */
	readonly areDated: boolean;
	/** Most ids have no space inside. */
	readonly isUnspaced: boolean;
}

const months = 'jan|feb|mar|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez';
const madeDate = new RegExp(`^(?:\\d{1,2}[-. ](?:${months})|(?:${months})[-. ]\\d{1,4})\\.?$`, 'i');

/** Looks at all ids of a column. */
export function surveyIds(ids: readonly string[]): IdColumn {
	const lengths = new Map<number, number>();
	let padded = 0;
	let digits = 0;
	let unspaced = 0;
	let dated = 0;
	for (const id of ids) {
		if (!/\s/.test(id)) unspaced++;
		if (madeDate.test(id)) dated++;
		if (/^\d+(?:[.,]0+)?$/.test(id)) digits++;
		if (!/^0\d+$/.test(id)) continue;
		padded++;
		lengths.set(id.length, (lengths.get(id.length) ?? 0) + 1);
	}
	const [length, count] = [...lengths].sort((a, b) => b[1] - a[1])[0] ?? [undefined, 0];
	return {
		paddedLength: count * 10 >= padded * 9 ? length : undefined,
		isDigits: digits * 10 >= ids.length * 8,
		areDated: dated * 5 > ids.length,
		isUnspaced: unspaced * 10 >= ids.length * 9
	};
}

/**
 * The damage that a spreadsheet has done to an id: a number in powers of ten (`1.00E+05`) or with decimals; a date made
 * of `10-12`; digits that are fewer than those of the ids in the column that kept their leading zeros. `isKnown` tells
 * whether the document has a person with an id: one that is there only with zeros in front lost them, even when the
 * whole column did; a line end inside. Undefined for an id without damage.
 * @source spreadsheets keep 15 digits of a number and no leading zeros: common practice, no source
 */
export function damageOf(id: string, column: IdColumn, isKnown: (id: string) => boolean): Damage | undefined {
	// Most ids are digits with zeros in front, and nothing else can have happened to these.
	if (/^0\d+$/.test(id)) return undefined;
	if (/[\p{Cc}\p{Zl}\p{Zp}]/u.test(id)) {
		return { why: 'holds a line end or a control character, which no id may', likely: undefined };
	}
	if (/^[+-]?\d+(?:[.,]\d+)?E[+-]\d+$/i.test(id) || /^[+-]?\d+[.,]\d+E\d+$/i.test(id)) {
		return { why: 'is a number in powers of ten', likely: undefined };
	}
	if (isKnown(id)) return undefined;
	if (column.isDigits && /^\d+[.,]0+$/.test(id)) {
		return { why: 'is a number with decimals', likely: id.replace(/[.,]0+$/, '') };
	}
	if (!column.areDated && madeDate.test(id)) return { why: 'is a date', likely: undefined };
	if (!/^[1-9]\d*$|^0$/.test(id)) return undefined;
	const { paddedLength } = column;
	if (paddedLength !== undefined && id.length < paddedLength) {
		return { why: `is shorter than the ids with leading zeros in this column`, likely: id.padStart(paddedLength, '0') };
	}
	for (let padded = `0${id}`; padded.length <= 12; padded = `0${padded}`) {
		if (isKnown(padded)) return { why: 'is known only with leading zeros', likely: padded };
	}
	return undefined;
}

/** True for text that is shaped as the ids of the column are: where most are digits, a sentence is none. */
export function fitsColumn(text: string, { isDigits, isUnspaced }: IdColumn): boolean {
	if (isUnspaced && /\s/.test(text)) return false;
	return !isDigits || /\d/.test(text);
}
