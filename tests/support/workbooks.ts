import { strToU8, zipSync } from 'fflate';

/** A cell as XML has it: its attributes, and what stands inside. */
export interface RawCell {
	readonly t?: string;
	readonly s?: number;
	readonly inside: string;
}

export interface RawSheet {
	readonly name?: string;
	readonly state?: 'hidden' | 'veryHidden';
	/** Rows from the first on; null is a row that is not written at all. Text is a shared one, a number a plain one. */
	readonly rows: readonly (readonly (string | number | boolean | null | RawCell)[] | null)[];
	readonly merges?: readonly string[];
}

export interface RawWorkbook {
	readonly sheets: readonly RawSheet[];
	readonly date1904?: boolean;
	/** Codes of number formats; the style of each is its place here plus 1. Numbers are formats of the standard. */
	readonly formats?: readonly (string | number)[];
	/** Parts to put in, or to leave out (null). */
	readonly parts?: Readonly<Record<string, string | null>>;
}

/** A formula with the value that was calculated last. */
export function formula(text: string, value: string | number | null): RawCell {
	const isText = typeof value === 'string';
	return {
		...(isText ? { t: 'str' } : {}),
		inside: `<f>${escaped(text)}</f>${value === null ? '' : `<v>${escaped(String(value))}</v>`}`
	};
}

/** A number in a style. */
export function styled(value: number, s: number): RawCell {
	return { s, inside: `<v>${value}</v>` };
}

/**
 * Writes a workbook by hand, so that a test can say what a writer of workbooks never would.
 * @source ECMA-376 part 1, 18.2 (workbook), 18.3 (sheets), 18.4 (shared strings), 18.8 (styles)
 */
export function workbookBytes({ sheets, date1904, formats = [], parts = {} }: RawWorkbook): Uint8Array {
	const strings: string[] = [];
	const shared = (text: string): number => {
		const known = strings.indexOf(text);
		return known >= 0 ? known : strings.push(text) - 1;
	};
	const cell = (value: string | number | boolean | null | RawCell, row: number, column: number): string => {
		if (value === null) return '';
		const place = `${letters(column)}${row + 1}`;
		if (typeof value === 'string') return `<c r="${place}" t="s"><v>${shared(value)}</v></c>`;
		if (typeof value === 'number') return `<c r="${place}"><v>${value}</v></c>`;
		if (typeof value === 'boolean') return `<c r="${place}" t="b"><v>${value ? 1 : 0}</v></c>`;
		const { t, s, inside } = value;
		return `<c r="${place}"${t === undefined ? '' : ` t="${t}"`}${s === undefined ? '' : ` s="${s}"`}>${inside}</c>`;
	};
	const sheetXml = ({ rows, merges = [] }: RawSheet): string =>
		`<worksheet xmlns="${main}"><sheetData>${rows
			.map((cells, row) =>
				cells === null
					? ''
					: `<row r="${row + 1}">${cells.map((value, column) => cell(value, row, column)).join('')}</row>`
			)
			.join('')}</sheetData>${
			merges.length === 0 ? '' : `<mergeCells>${merges.map((ref) => `<mergeCell ref="${ref}"/>`).join('')}</mergeCells>`
		}</worksheet>`;
	const codes = formats.flatMap((code, index) => (typeof code === 'string' ? [[164 + index, code] as const] : []));
	const all: Record<string, string | null> = {
		'[Content_Types].xml': `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
		'_rels/.rels': `<Relationships xmlns="${relations}"><Relationship Id="r1" Type="${office}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		'xl/workbook.xml': `<workbook xmlns="${main}" xmlns:r="${office}">${
			date1904 === undefined ? '' : `<workbookPr date1904="${date1904 ? 1 : 0}"/>`
		}<sheets>${sheets
			.map(
				({ name, state }, index) =>
					`<sheet name="${escaped(name ?? `Sheet${index + 1}`)}" sheetId="${index + 1}"${
						state === undefined ? '' : ` state="${state}"`
					} r:id="s${index + 1}"/>`
			)
			.join('')}</sheets></workbook>`,
		'xl/_rels/workbook.xml.rels': `<Relationships xmlns="${relations}">${sheets
			.map(
				(_, index) =>
					`<Relationship Id="s${index + 1}" Type="${office}/worksheet" Target="worksheets/sheet${index + 1}.xml"/>`
			)
			.join(
				''
			)}<Relationship Id="st" Type="${office}/styles" Target="styles.xml"/><Relationship Id="sh" Type="${office}/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
		...Object.fromEntries(sheets.map((sheet, index) => [`xl/worksheets/sheet${index + 1}.xml`, sheetXml(sheet)])),
		'xl/styles.xml': `<styleSheet xmlns="${main}"><numFmts>${codes
			.map(([id, code]) => `<numFmt numFmtId="${id}" formatCode="${escaped(code)}"/>`)
			.join('')}</numFmts><cellStyleXfs><xf numFmtId="14"/></cellStyleXfs><cellXfs><xf numFmtId="0"/>${formats
			.map((code, index) => `<xf numFmtId="${typeof code === 'number' ? code : 164 + index}"/>`)
			.join('')}</cellXfs></styleSheet>`,
		'xl/sharedStrings.xml': `<sst xmlns="${main}">${strings
			.map((text) => `<si><t xml:space="preserve">${escaped(text)}</t></si>`)
			.join('')}</sst>`,
		...parts
	};
	const files = Object.entries(all).flatMap(([name, text]): [string, Uint8Array][] =>
		text === null ? [] : [[name, strToU8(`<?xml version="1.0" encoding="UTF-8" standalone="yes"?>${text}`)]]
	);
	return zipSync(Object.fromEntries(files));
}

const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const office = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const relations = 'http://schemas.openxmlformats.org/package/2006/relationships';

function letters(column: number): string {
	const rest = Math.floor(column / 26);
	return (rest > 0 ? letters(rest - 1) : '') + String.fromCharCode(65 + (column % 26));
}

function escaped(text: string): string {
	return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
}
