/** What a number format makes of a number, as far as it matters for reading: a date, a percentage, leading zeros. */
export type NumberFormat =
	| { readonly kind: 'plain' }
	| { readonly kind: 'date' }
	| { readonly kind: 'time' }
	| { readonly kind: 'percent' }
	/** Digits and signs of their own: `00000`, `000-000`, `"E"0000`. Each `0` takes a digit, from the right. */
	| { readonly kind: 'mask'; readonly parts: readonly (string | 0)[] };

const plain: NumberFormat = { kind: 'plain' };

/** Formats that have a number instead of a code. @source ECMA-376 part 1, 18.8.30 */
export function builtInFormat(id: number): NumberFormat {
	if (id === 9 || id === 10) return { kind: 'percent' };
	if ((id >= 14 && id <= 17) || id === 22 || (id >= 27 && id <= 36) || (id >= 50 && id <= 58)) return { kind: 'date' };
	if ((id >= 18 && id <= 21) || (id >= 45 && id <= 47)) return { kind: 'time' };
	return plain;
}

/**
 * Reads a format's code; its first section counts, as the others are for negative numbers, zero and text.
 * @source ECMA-376 part 1, 18.8.31
 */
export function readNumberFormat(code: string): NumberFormat {
	const section = firstSection(code);
	const bare = section
		.replace(/\[(?!(?:h+|m+|s+)\])[^\]]*\]/gi, '')
		.replace(/"[^"]*"|\\.|_./g, '')
		.replace(/\*./g, '');
	if (/general/i.test(bare)) return plain;
	if (/[ydgeb]/i.test(bare.replace(/e[+-]/gi, '')) || /m{3,}/i.test(bare)) return { kind: 'date' };
	if (/[hs]|\[m+\]/i.test(bare)) return { kind: 'time' };
	if (/m/i.test(bare)) return { kind: 'date' };
	if (bare.includes('%')) return { kind: 'percent' };
	return maskOf(section) ?? plain;
}

/** The code up to the first semicolon that is no text. */
function firstSection(code: string): string {
	return /^(?:"[^"]*"|\\.|[^;"\\])*/.exec(code)?.[0] ?? code;
}

/** Zeros (two or more) with signs before, between and behind; undefined for any other format. */
function maskOf(section: string): NumberFormat | undefined {
	const parts: (string | 0)[] = [];
	for (const [, color, quoted, escaped, sign] of section.matchAll(/(\[[^\]]*\]|_.|\*.)|"([^"]*)"|\\(.)|([^])/gu)) {
		if (color !== undefined) continue;
		if (quoted !== undefined || escaped !== undefined) parts.push(quoted ?? escaped ?? '');
		else if (sign === '0') parts.push(0);
		else if (/^[-\s/()A-Z]$/.test(sign ?? '')) parts.push(sign ?? '');
		else return undefined;
	}
	return parts.filter((part) => part === 0).length >= 2 ? { kind: 'mask', parts } : undefined;
}

/** A whole number of 0 or more in a mask: digits from the right, the ones left over before the first. */
export function masked(value: number, parts: readonly (string | 0)[]): string {
	const digits = [...String(value)];
	const shown = parts.toReversed().map((part) => (part === 0 ? (digits.pop() ?? '0') : part));
	const first = parts.indexOf(0);
	shown[parts.length - 1 - first] = digits.join('') + (shown[parts.length - 1 - first] ?? '');
	return shown.toReversed().join('');
}
