import { type LineReading, mostCells, readLine } from './read-line';

/**
 * Reads delimited text record by record, as spreadsheets do: CR, LF and CRLF end a record outside quotes, blank lines are
 * records too, and a line end inside quotes does not start one. Where the quoting follows RFC 4180 there is one way to
 * read; where it does not, the ways of `readLine` are tried on that record alone, and the one that gives as many cells as
 * the header has is taken and told: a quotation mark that was forgotten in one row does not swallow the rows after it.
 * Invariant: every character of the text outside line ends, delimiters and quotes is in exactly one cell. Linear, as a
 * broken cell is followed for a limited number of characters, and a limited number of times.
 *
 * Papa Parse (the reader of CSV elsewhere) takes one kind of line end per file, says nothing of a quotation mark inside
 * a cell without quotes, and lets a forgotten one swallow the rest of the file, so it cannot tell what is told here. On
 * text without breaches both read the same; a test holds them against each other.
 * @source RFC 4180, section 2; line ends and breaches beyond it: common practice, no source
 */
export interface Records {
	/** The cells of each record, in the order of the file; index 0 is row 1. */
	readonly records: readonly (readonly string[])[];
	/** Where quoting is broken: record index to cell index. */
	readonly broken: ReadonlyMap<number, number>;
	/** True when the text ends inside quotes, so that what follows is missing. */
	readonly isCutOff: boolean;
	/** True when there are more records than `mostRecords`, so that the rest was not read. */
	readonly isTooLong: boolean;
	/** True when the last record has its line end. */
	readonly endsInLineEnd: boolean;
}

export interface RecordsWanted {
	readonly delimiter: string;
	/** How many cells a record should have; unknown before the header is found. */
	readonly width?: number | undefined;
	/** Stop after so many records. */
	readonly most?: number;
}

/** No list has more records: a spreadsheet holds no more, and a file of line ends alone must not fill the memory. */
export const mostRecords = 1_048_576;

/** A blank line: one for all of them, so that a file of nothing else stays small. */
const blank: readonly string[] = [''];

/** After so many quotes followed in vain, every further line is taken as it stands: the file has no quoting to speak of. */
const mostLost = 1000;

/** Reads the records of text; see above. */
export function readRecords(text: string, { delimiter, width, most = Infinity }: RecordsWanted): Records {
	const records: (readonly string[])[] = [];
	const broken = new Map<number, number>();
	let isCutOff = false;
	let lost = 0;
	let at = 0;
	let quote = text.indexOf('"');
	let feed = text.indexOf('\n');
	let carriage = text.indexOf('\r');
	const limit = Math.min(most, mostRecords);
	while (at < text.length && records.length < limit) {
		if (quote !== -1 && quote < at) quote = text.indexOf('"', at);
		if (feed !== -1 && feed < at) feed = text.indexOf('\n', at);
		if (carriage !== -1 && carriage < at) carriage = text.indexOf('\r', at);
		const end = Math.min(feed === -1 ? text.length : feed, carriage === -1 ? text.length : carriage);
		if (quote === -1 || quote > end) {
			records.push(end === at ? blank : text.slice(at, end).split(delimiter, mostCells));
			at = afterLineEnd(text, end);
			continue;
		}
		const { reading, isLost } =
			lost < mostLost
				? chosenReading(text, at, delimiter, width)
				: { reading: readLine(text, at, delimiter, 'literal'), isLost: false };
		if (isLost) lost++;
		if (reading.open !== 'no') {
			isCutOff = true;
			break;
		}
		if (reading.brokenCell >= 0) broken.set(records.length, reading.brokenCell);
		records.push(reading.cells);
		at = afterLineEnd(text, reading.end);
	}
	const isTooLong = at < text.length && !isCutOff && records.length >= mostRecords;
	return { records, broken, isCutOff, isTooLong, endsInLineEnd: /[\r\n]$/.test(text) };
}

/** The start of the next line, given the end of one: CRLF is one line end. */
function afterLineEnd(text: string, end: number): number {
	return end + (text.charCodeAt(end) === 0x0d && text.charCodeAt(end + 1) === 0x0a ? 2 : 1);
}

/** A reading, and whether quotes were followed in vain before it was found. */
interface Choice {
	readonly reading: LineReading;
	readonly isLost: boolean;
}

function chosenReading(text: string, start: number, delimiter: string, width: number | undefined): Choice {
	const strict = readLine(text, start, delimiter, 'run-on');
	const fits = (reading: LineReading): boolean => width === undefined || reading.cells.length === width;
	const isLost = strict.open !== 'no';
	if (!isLost && strict.brokenCell < 0 && (!strict.isSpread || fits(strict))) return { reading: strict, isLost };

	const literal = readLine(text, start, delimiter, 'literal');
	const close = readLine(text, start, delimiter, 'close');
	const onOneLine = [strict, close, literal].filter((reading) => reading.open === 'no' && !reading.isSpread);
	const fitting = onOneLine.find(fits);
	if (width === undefined) return { reading: fitting ?? literal, isLost };
	if (strict.open === 'to-the-end' && !isBreach(text, literal, width, delimiter)) return { reading: strict, isLost };
	if (isLost) return { reading: fitting ?? literal, isLost };
	if (fitting) return { reading: fitting, isLost };
	if (fits(strict) || strict.brokenCell < 0) return { reading: strict, isLost };
	return { reading: onOneLine[0] ?? strict, isLost };
}

/**
 * Whether quotes that never end were opened by mistake, rather than cut off: the lines that follow read as records of
 * their own, or there are none and the line is whole by itself.
 */
function isBreach(text: string, literal: LineReading, width: number, delimiter: string): boolean {
	let lines = 0;
	let whole = 0;
	let at = afterLineEnd(text, literal.end);
	while (at < text.length && lines < 50) {
		const next = readLine(text, at, delimiter, 'literal');
		if (next.end > at) {
			lines++;
			if (next.cells.length === width) whole++;
		}
		at = afterLineEnd(text, next.end);
	}
	if (lines > 0) return whole * 2 >= lines;
	return literal.end < text.length && literal.cells.length === width;
}
