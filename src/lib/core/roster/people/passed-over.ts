import { cellText } from '../values/cell-text';
import { type IdColumn, fitsColumn } from '../values/ids';
import type { Plan } from './plan';

/** Why a record holds no person. */
export type PassedOver = 'blank' | 'header-repeated' | 'total-row';

const totalWords =
	/^(?:grand\s+|sub\s?-?)?(?:totals?|sum|count|headcount|summe|gesamt\p{L}*|zwischensumme|endsumme|insgesamt|anzahl|total\s+g[ée]n[ée]ral|sous-?\s?total|somme|effectif|nombre|suma|total\s+general|recuento|cantidad|n[úu]mero\s+total|razem|og[óo][łl]em|[łl][ąa]cznie|liczba|podsumowanie)(?![\p{L}\p{N}])/iu;
const number = /^[+-]?[\d.,\s']*\d[\d.,\s']*%?$/;

/**
 * Tells a record without a person: nothing in it; the header or a title of the list once more; a total; or, in a list of
 * three columns or more, a single cell with a sentence or a group heading where the id stands, as under and between the
 * people of a report. Undefined for a record that is to be read. `texts` are its cells by `cellText`.
 */
export function passedOver(texts: readonly string[], plan: Plan, ids: IdColumn): PassedOver | undefined {
	const filled = texts.filter((text) => text !== '');
	if (filled.length === 0) return 'blank';
	if (isRepeated(texts, filled, plan)) return 'header-repeated';
	if (isTotal(texts, filled, plan)) return 'total-row';
	const [only] = filled;
	if (filled.length === 1 && only !== undefined && plan.width >= 3 && isRemark(only, texts, plan, ids))
		return 'total-row';
	return undefined;
}

function isRepeated(texts: readonly string[], filled: readonly string[], { headers, titles }: Plan): boolean {
	if (titles.size > 0 && titles.has(filled.join('\n'))) return true;
	let same = 0;
	for (const [column, text] of texts.entries()) {
		if (text === '') continue;
		if (text.toLowerCase() !== cellText(headers[column] ?? '').toLowerCase()) return false;
		same++;
	}
	return same >= 2;
}

function isTotal(texts: readonly string[], filled: readonly string[], plan: Plan): boolean {
	// Of a person the id is no word for a total, and the name is neither that nor a number: settled by the first cells.
	const isIdTotal = plan.id !== undefined && totalWords.test(texts[plan.id] ?? '');
	if (!isIdTotal && filled.some((text) => !number.test(text) && !totalWords.test(text))) return false;
	const label = filled.find((text) => totalWords.test(text));
	if (label === undefined) return false;
	const others = filled.filter((text) => text !== label);
	const isNameless = plan.names.every((column) => (texts[column] ?? '') === '' || texts[column] === label);
	if (plan.id !== undefined && texts[plan.id] === label && isNameless && /^[^\d:]*:?\s*\d*$/.test(label)) return true;
	if (!others.every((text) => number.test(text) || totalWords.test(text))) return false;
	const { id } = plan;
	// Somebody may be called Total: then there is an id, and not a count, beside the name.
	const isCount = id === undefined || (texts[id] ?? '') === '' || texts[id] === label || others.length === 0;
	return isCount || (filled.length === 2 && plan.width > 2);
}

function isRemark(only: string, texts: readonly string[], plan: Plan, ids: IdColumn): boolean {
	const column = texts.indexOf(only);
	if (plan.names.includes(column)) return false;
	return column === plan.id ? /\p{L}{2}/u.test(only) && !fitsColumn(only, ids) : /\s/.test(only) || only.endsWith(':');
}
