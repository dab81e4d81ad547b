const plain = /^[\x21-\x7e](?:[\x20-\x7e]*[\x21-\x7e])?$/;
const noBreakSpaces = /[\u00a0\u2007\u202f]/g;
const edges = /^[\s\u200b\u200e\u200f\u2060\ufeff]+|[\s\u200b\u200e\u200f\u2060\ufeff]+$/g;

/** A cell's text as it is kept: no-break spaces as spaces, trimmed (invisible marks at the edges too), NFC. */
export function cellText(raw: string): string {
	if (raw === '' || plain.test(raw)) return raw;
	return raw.replace(noBreakSpaces, ' ').replace(edges, '').normalize('NFC');
}

/** True for a cell with nothing in it, or only with dashes that say so. */
export function isEmptyCell(text: string): boolean {
	if (text === '') return true;
	const code = text.charCodeAt(0);
	return (code === 0x2d || code === 0x2013 || code === 0x2014) && /^[-–—]+$/.test(text);
}

/** Words for "nothing" or "no end", in the five languages. */
const nothing = new Set(
	(
		'n/a,na,n.a.,none,nil,null,(null),?,tbd,open,open-ended,ongoing,permanent,indefinite,present,current,keine,keines,keiner,kein,' +
		'k.a.,entfällt,offen,unbefristet,heute,aucun,aucune,néant,sans,s/o,cdi,indéterminé,indéterminée,ninguno,ninguna,no aplica,' +
		'indefinido,nunca,vigente,brak,nie dotyczy,n.d.,nieokreślony,nieokreślona,bezterminowo,na czas nieokreślony'
	).split(',')
);

const longestNothing = Math.max(...[...nothing].map(({ length }) => length));

/** True for a cell that says that there is no date, address or pattern. Never asked of names, ids and free words. */
export function saysNothing(text: string): boolean {
	if (isEmptyCell(text)) return true;
	// Most cells are dates and addresses: no digit begins a word for nothing, and small letters are never fewer.
	const code = text.charCodeAt(0);
	if (text.length > longestNothing || (code >= 0x30 && code <= 0x39)) return false;
	return nothing.has(text.toLowerCase());
}

const spreadsheetError =
	/^#(?:n\/a|nv|n\/d!?|¡?ref!|bezug!|adr!|value!|wert!|valeur!|¡?valor!|arg!|name\?|nom\s?\?|¿nombre\?|nazwa\?|¡?div\/0!|dziel\/0!|¡?num!|zahl!|nombre\s?!|liczba!|null!|nul\s?!|¡nulo!|zero!|spill!|calc!|field!|blocked!|getting_data|#{2,})$/i;

/**
 * True for what a spreadsheet writes where a formula failed (`#N/A`, `#REF!`), in English, German, French, Spanish or
 * Polish, and for the `####` of a column that was too narrow: the value is lost, and that is no empty cell.
 * @source ECMA-376 part 1, 18.17.3 (error values); their translations: from memory
 */
export function isSpreadsheetError(text: string): boolean {
	return text.charCodeAt(0) === 0x23 && spreadsheetError.test(text);
}

/**
 * True for a cell that a spreadsheet would take for a formula: it begins with `=`, `+`, `-` or `@` (in full width too)
 * and is no plain number and no telephone number; or with a tab or line end before something that is no number.
 * @source OWASP, CSV injection; vector V-CSV-02
 */
export function isFormula(raw: string): boolean {
	const code = raw.charCodeAt(0);
	// Digits and letters begin nearly all cells.
	if ((code >= 0x30 && code <= 0x39) || (code >= 0x41 && code <= 0x7a)) return false;
	if (code === 0x09 || code === 0x0d || code === 0x0a) {
		const rest = raw.trimStart();
		return rest !== '' && !/^\d/.test(rest);
	}
	// Spaces in front are no part of the cell for most programs that read it later.
	const text = code === 0x20 || code === 0xa0 ? raw.trimStart() : raw;
	if (!/^[=+\-@＝＋－＠]/.test(text)) return false;
	const rest = text.slice(1);
	if (/^-*$/.test(rest) && text.startsWith('-')) return false;
	if (/^[+\-＋－]/.test(text)) {
		if (/^\s?\d+(?:[.,\s]\d+)*\s?%?$/.test(rest)) return false;
		if (text.startsWith('+') && /^[\d\s()./-]{6,22}$/.test(rest) && rest.replace(/\D/g, '').length >= 6) return false;
	}
	return true;
}
