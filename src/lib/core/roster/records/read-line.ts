/** How a quotation mark is taken that stands where RFC 4180 allows none. */
export type QuoteBreach =
	/** As text; the quoted cell runs on to a quotation mark before a delimiter or line end. */
	| 'run-on'
	/** As the end of the quoting; the cell, quotes and all, runs to the next delimiter. */
	| 'close'
	/** As text like any other, so that the record ends with its line. */
	| 'literal';

/** One record as it was read. */
export interface LineReading {
	readonly cells: string[];
	/** Where the record ends: at its line end, or at the end of the text. */
	readonly end: number;
	/** The first cell with broken quoting, -1 where there is none. */
	readonly brokenCell: number;
	/** True when a quoted cell holds a line end. */
	readonly isSpread: boolean;
	/** Quotes that were never closed: they were followed to the end of the text, or given up too far on to be meant. */
	readonly open: 'no' | 'to-the-end' | 'given-up';
}

/**
 * No record is taken apart into more cells than this (spreadsheets hold 16,384): a line of nothing but delimiters must
 * not fill the memory.
 */
export const mostCells = 16_385;

/** How far a cell with broken quoting is followed, in UTF-16 code units. */
const longestBroken = 8192;

/**
 * Reads the record that starts at `start`. Spaces around a quoted cell are passed over; `""` inside one is a quotation
 * mark.
 */
export function readLine(text: string, start: number, delimiter: string, breach: QuoteBreach): LineReading {
	const cells: string[] = [];
	let brokenCell = -1;
	let isSpread = false;
	let at = start;
	while (cells.length < mostCells) {
		const open = afterSpaces(text, at);
		if (text.charCodeAt(open) === 0x22) {
			const quoted = readQuoted(text, open, delimiter, breach === 'run-on');
			const endsHere = quoted.isClean && !(breach === 'literal' && quoted.isSpread);
			if (endsHere || breach === 'run-on') {
				cells.push(quoted.value);
				if (!quoted.isClean && brokenCell < 0) brokenCell = cells.length - 1;
				isSpread ||= quoted.isSpread;
				at = quoted.end;
				if (quoted.open !== 'no') return { cells, end: text.length, brokenCell, isSpread, open: quoted.open };
			} else {
				const from = breach === 'close' && quoted.open === 'no' ? quoted.end : at;
				const end = endOfPlain(text, from, delimiter);
				isSpread ||= breach === 'close' && quoted.isSpread;
				cells.push(text.slice(at, end));
				if (brokenCell < 0) brokenCell = cells.length - 1;
				at = end;
			}
		} else {
			const end = endOfPlain(text, at, delimiter);
			const value = text.slice(at, end);
			if (brokenCell < 0 && value.includes('"') && !textAsFormula.test(value)) brokenCell = cells.length;
			cells.push(value);
			at = end;
		}
		if (!text.startsWith(delimiter, at) || at >= text.length) {
			return { cells, end: at, brokenCell, isSpread, open: 'no' };
		}
		at += delimiter.length;
	}
	const end = /[\r\n]/g;
	end.lastIndex = at;
	return { cells, end: end.exec(text)?.index ?? text.length, brokenCell, isSpread, open: 'no' };
}

/** `="00123"`: a formula by which text is kept from being taken for a number; its quotes are meant. */
const textAsFormula = /^\s*="[^"]*"\s*$/;

interface QuotedCell {
	readonly value: string;
	/** Behind the closing quote and the spaces after it; where it is not clean, behind the quote that broke it. */
	readonly end: number;
	readonly isClean: boolean;
	readonly isSpread: boolean;
	readonly open: LineReading['open'];
}

function readQuoted(text: string, start: number, delimiter: string, runsOn: boolean): QuotedCell {
	let at = start + 1;
	let isClean = true;
	for (;;) {
		const quote = text.indexOf('"', at);
		const isTooFar = !isClean && quote - start > longestBroken;
		if (quote === -1 || isTooFar) {
			return {
				value: '',
				end: text.length,
				isClean: false,
				isSpread: true,
				open: isTooFar ? 'given-up' : 'to-the-end'
			};
		}
		if (text.charCodeAt(quote + 1) === 0x22) {
			at = quote + 2;
			continue;
		}
		const after = afterSpaces(text, quote + 1);
		const isEnd = isEndOfCell(text, after, delimiter);
		if (isEnd || !runsOn) {
			const inside = text.slice(start + 1, quote);
			const isSpread = inside.includes('\n') || inside.includes('\r');
			return {
				value: inside.includes('"') ? inside.replaceAll('""', '"') : inside,
				end: isEnd ? after : quote + 1,
				isClean: isEnd && isClean,
				isSpread,
				open: 'no'
			};
		}
		isClean = false;
		at = quote + 1;
	}
}

function afterSpaces(text: string, start: number): number {
	let at = start;
	while (text.charCodeAt(at) === 0x20) at++;
	return at;
}

function isEndOfCell(text: string, at: number, delimiter: string): boolean {
	const code = text.charCodeAt(at);
	return at >= text.length || code === 0x0a || code === 0x0d || text.startsWith(delimiter, at);
}

function endOfPlain(text: string, start: number, delimiter: string): number {
	for (let at = start; at < text.length; at++) {
		const code = text.charCodeAt(at);
		if (code === 0x0a || code === 0x0d || (code === delimiter.charCodeAt(0) && text.startsWith(delimiter, at)))
			return at;
	}
	return text.length;
}
