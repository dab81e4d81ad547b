import { type Recognition, recognizeHeader } from '../columns/recognize-header';
import { tokensOf } from '../columns/header-text';
import { cellText } from '../values/cell-text';
import { looksLikeDate } from '../values/read-date';
import { readRecords } from './read-records';

/** How the records of a roster are laid out. */
export interface Layout {
	readonly delimiter: string;
	/** The record that holds the headers, from 0; -1 where there is none. */
	readonly headerIndex: number;
	/** How many cells a record has. */
	readonly width: number;
}

/** What is said of the layout from outside. */
export interface LayoutWanted {
	readonly delimiter: string | undefined;
	/** Headers that the file must have, as written. */
	readonly headers: readonly string[];
}

export const delimiters = [',', ';', '\t', '|'] as const;

/** How much of the text is looked at, in UTF-16 code units and in records. */
const looked = { text: 131_072, records: 400, aboveHeader: 60 };

/**
 * Finds the delimiter and the header of a list. Each delimiter is tried on the beginning of the text and judged by how
 * many headers are recognized in one record, and by how many records have as many cells as most have. The header is the
 * first record with nearly as many recognized headers as the best one has: titles above it have fewer, repetitions below
 * come later. A list without a recognized header is laid out by its first record where that one is made of words alone,
 * and has none otherwise.
 */
export function findLayout(text: string, { delimiter, headers }: LayoutWanted): Layout {
	const declared = /^sep=([^\r\n"])\r?$/im.exec(/^[^\r\n]*/.exec(text)?.[0] ?? '')?.[1];
	const tried = delimiter !== undefined ? [delimiter] : declared !== undefined ? [declared] : delimiters;
	const isWhole = text.length <= looked.text;
	const start = isWhole ? text : text.slice(0, looked.text);
	const context = { wanted: new Set(headers.map(headerKey)), recognized: new Map<string, Recognition | undefined>() };
	let best: (Layout & { readonly score: number }) | undefined;
	for (const candidate of tried) {
		const { records } = readRecords(start, { delimiter: candidate, most: looked.records });
		const layout = judgedLayout(isWhole ? records : records.slice(0, -1), candidate, context);
		if (best === undefined || layout.score > best.score) best = layout;
	}
	return best ?? { delimiter: ',', headerIndex: -1, width: 0 };
}

/**
 * Finds the header in records that are given as such, as those of a sheet are; `headers` are said to be there. The width
 * is that of the header, or of most records where there is none.
 */
export function findHeader(
	records: readonly (readonly string[])[],
	headers: readonly string[]
): Omit<Layout, 'delimiter'> {
	const context = { wanted: new Set(headers.map(headerKey)), recognized: new Map<string, Recognition | undefined>() };
	const { headerIndex, width } = judgedLayout(records.slice(0, looked.records), '', context);
	return { headerIndex, width };
}

/** A header as headers are compared with those of a map. */
export function headerKey(header: string): string {
	return cellText(header).replace(/\s+/g, ' ').toLowerCase();
}

interface Context {
	/** Headers that are said to be there, as `headerKey` writes them. */
	readonly wanted: ReadonlySet<string>;
	/** What each text means as a header, as far as it was asked: most cells stand in several records. */
	readonly recognized: Map<string, Recognition | undefined>;
}

function judgedLayout(
	records: readonly (readonly string[])[],
	delimiter: string,
	context: Context
): Layout & { score: number } {
	const filled = records.filter((cells) => cells.some((cell) => cell.trim() !== ''));
	const mostFrequent = modeOf(filled.map((cells) => cells.length));
	const share =
		filled.length === 0 ? 0 : filled.filter((cells) => cells.length === mostFrequent).length / filled.length;
	const scores = records.slice(0, looked.aboveHeader).map((cells) => headerScore(cells, context));
	const highest = Math.max(0, ...scores);
	const recognized =
		highest >= 1.5 || (highest > 0 && context.wanted.size > 0)
			? lowerOfTwo(
					scores,
					scores.findIndex((score) => score >= highest * 0.75)
				)
			: -1;
	const headerIndex = recognized >= 0 ? recognized : wordsIndex(records, mostFrequent);
	return {
		delimiter,
		headerIndex,
		width: records[headerIndex]?.length ?? mostFrequent,
		score: highest * 2 + (mostFrequent > 1 ? share * Math.min(mostFrequent, 10) * 0.3 : 0)
	};
}

/** Of two lines of headers the lower one, where that says more: `Name` merged over `First name` and `Last name`. */
function lowerOfTwo(scores: readonly number[], index: number): number {
	return (scores[index + 1] ?? 0) > (scores[index] ?? 0) ? index + 1 : index;
}

/**
 * The headers of a list that has them in two lines, where the lower one is filled only under some: `ID,Name,,Department` over
 * `,First name,Last name,`. Undefined where the line under the header is none. The id is never in the lower line: a
 * person without one is a person.
 */
export function headerOfTwoLines(
	records: readonly (readonly string[])[],
	headerIndex: number
): readonly string[] | undefined {
	const [upper, lower] = [records[headerIndex], records[headerIndex + 1]];
	if (headerIndex < 0 || !upper || !lower || lower.length > upper.length) return undefined;
	const filled = lower.map(cellText).filter((cell) => cell !== '');
	const context = { wanted: new Set<string>(), recognized: new Map<string, Recognition | undefined>() };
	if (filled.length < 2 || filled.some((cell) => isValue(cell) || (recognizeHeader(cell)[0]?.sure ?? 0) < 0.8))
		return undefined;
	const ids = upper.flatMap((cell, column) => (recognizeHeader(cell)[0]?.concept === 'id' ? [column] : []));
	if (ids.length === 0 || ids.some((column) => cellText(lower[column] ?? '') !== '')) return undefined;
	const both = upper.map((cell, column) => (cellText(lower[column] ?? '') === '' ? cell : (lower[column] ?? '')));
	return headerScore(both, context) > headerScore(upper, context) ? both : undefined;
}

function modeOf(values: readonly number[]): number {
	const counts = new Map<number, number>();
	for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
	return [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0] ?? 0;
}

/** How much of a record are headers: the sum of how sure each recognized one is, 0 where it holds what no header does. */
function headerScore(cells: readonly string[], { wanted, recognized: known }: Context): number {
	const filled = cells.map(cellText).filter((cell) => cell !== '');
	if (filled.length < 2 || filled.some(isValue)) return 0;
	let sum = 0;
	let recognized = 0;
	const concepts = new Set<string>();
	for (const cell of filled) {
		if (wanted.has(headerKey(cell))) {
			sum += 2;
			recognized++;
			continue;
		}
		if (!known.has(cell)) known.set(cell, recognizeHeader(cell)[0]);
		const best = known.get(cell);
		if (best === undefined) continue;
		recognized++;
		if (best.concept === 'other' || best.concept === 'goods') sum += 0.25 * best.sure;
		else if (!concepts.has(best.concept)) sum += best.sure;
		concepts.add(best.concept);
	}
	return recognized * 4 >= filled.length ? sum : 0;
}

/** True for what stands under a header and never is one. */
function isValue(cell: string): boolean {
	return (
		/^[^\s@]+@[^\s@]+\.[^\s@]+$/.test(cell) || /^[\d.,+-]{3,}$/.test(cell) || looksLikeDate(cell) || cell.length > 80
	);
}

/** The first record as a header of a language that is not known: words in every cell, over a record that has values. */
function wordsIndex(records: readonly (readonly string[])[], width: number): number {
	const index = records.findIndex((cells) => cells.length === width && cells.some((cell) => cell.trim() !== ''));
	const cells = (records[index] ?? []).map(cellText);
	const below = records.slice(index + 1, index + 20).flatMap((record) => record.map(cellText));
	const areWords = cells.every(
		(cell) => cell === '' || (tokensOf(cell).length > 0 && !/\d/.test(cell) && !isValue(cell))
	);
	const areDifferent = new Set(cells).size === cells.length;
	return width > 1 && areWords && areDifferent && below.some((cell) => /\d/.test(cell)) ? index : -1;
}
