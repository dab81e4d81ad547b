import { fault } from '../../kernel/fault';
import { type Result, ok, refused } from '../../kernel/result';
import { type Archive, ArchiveFault, openArchive } from './archive';
import {
	type Relation,
	type SheetEntry,
	readRelations,
	readSharedStrings,
	readStyles,
	readWorkbookPart
} from './parts';
import type { DateSystem } from './serial-date';
import { SheetFault, type SheetContext, type SheetRecords, readSheetRecords } from './sheet-records';
import { XmlFault } from './xml';

/** A sheet with cells, and what is read from it. */
export interface WorkbookSheet extends SheetRecords {
	readonly name: string;
	readonly isHidden: boolean;
}

export interface Workbook {
	/** In the order of the workbook; what is no sheet of cells (a chart) is left out. */
	readonly sheets: readonly WorkbookSheet[];
	readonly dateSystem: DateSystem;
}

/** True for bytes that begin as a zip archive does, and so as a workbook of today. */
export function isArchive(bytes: Uint8Array): boolean {
	return bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 0x03 && bytes[3] === 0x04;
}

/**
 * Reads a workbook (Office Open XML, `.xlsx` and `.xlsm`): every sheet, cells as texts. Macros, links and pictures are
 * never looked at. Refuses with the reason an archive that is no workbook, or is damaged, cut off, locked with a
 * password, or unpacks to more than a workbook of people can need.
 * @source ECMA-376 parts 1 and 2
 */
export function readWorkbook(bytes: Uint8Array): Result<Workbook> {
	try {
		return workbookIn(openArchive(bytes));
	} catch (error) {
		if (error instanceof ArchiveFault || error instanceof SheetFault) return no(error.message);
		if (error instanceof XmlFault) return no('a workbook with a damaged part');
		throw error;
	}
}

const wanted =
	'a workbook (.xlsx) that is whole. Open it in a spreadsheet, save it again as .xlsx or CSV, and send that';

function no(found: string, expected = wanted): Result<never> {
	return refused([fault([], found, expected)]);
}

const sheetKinds = new Set(['worksheet', 'xlMacrosheet', 'macrosheet']);

function workbookIn(archive: Archive): Result<Workbook> {
	const main = mainPart(archive);
	if (main === undefined || /\.bin$/i.test(main)) return no(...otherArchive(archive, main));
	const part = archive.read(main);
	if (part === undefined) return no('a workbook without its list of sheets');
	const folder = main.replace(/[^/]*$/, '');
	const relationsPart = archive.read(`${folder}_rels/${main.slice(folder.length)}.rels`);
	const relations = relationsPart === undefined ? new Map<string, Relation>() : readRelations(relationsPart, folder);
	const { sheets, dateSystem } = readWorkbookPart(part);
	const targetOf = (kind: string): string | undefined =>
		[...relations.values()].find((relation) => relation.kind === kind)?.target;
	const optional = <T>(kind: string, file: string, read: (bytes: Uint8Array) => T[]): T[] => {
		const bytes = archive.read(targetOf(kind) ?? `${folder}${file}`);
		return bytes === undefined ? [] : read(bytes);
	};
	const context: SheetContext = {
		strings: optional('sharedStrings', 'sharedStrings.xml', readSharedStrings),
		styles: optional('styles', 'styles.xml', readStyles),
		dateSystem
	};
	const read = sheets.flatMap((sheet, index) => {
		const target = sheetTarget(sheet, relations.get(sheet.relation), `${folder}worksheets/sheet${index + 1}.xml`);
		if (target === undefined) return [];
		const cells = archive.read(target);
		if (cells === undefined) throw new SheetFault(`a workbook that lacks its sheet ${JSON.stringify(sheet.name)}`);
		return [{ name: sheet.name, isHidden: sheet.isHidden, ...readSheetRecords(cells, context) }];
	});
	return read.length === 0 ? no('a workbook without a sheet of cells') : ok({ sheets: read, dateSystem });
}

/** The part of a sheet of cells; undefined for a chart and the like. */
function sheetTarget(sheet: SheetEntry, relation: Relation | undefined, usual: string): string | undefined {
	if (relation === undefined) return sheet.relation === '' ? usual : undefined;
	return sheetKinds.has(relation.kind) ? relation.target : undefined;
}

function mainPart(archive: Archive): string | undefined {
	const root = archive.read('_rels/.rels');
	const named = root && [...readRelations(root, '').values()].find(({ kind }) => kind === 'officeDocument');
	const usual = archive.names.find((name) => /^xl\/workbook\.(?:xml|bin)$/.test(name));
	const target = named?.target ?? usual;
	return target !== undefined && /^(?:.*\/)?(?:word|ppt)\//i.test(target) ? undefined : target;
}

function otherArchive(archive: Archive, main: string | undefined): [found: string, expected: string] {
	const save = 'Open it in a spreadsheet and save the sheet with the people as .xlsx or CSV (UTF-8)';
	if (main !== undefined) return ['a workbook of the binary kind (.xlsb)', `a workbook (.xlsx) or plain text. ${save}`];
	const has = (form: RegExp): boolean => archive.names.some((name) => form.test(name));
	if (has(/^content\.xml$/))
		return ['a document in the OpenDocument format', `a workbook (.xlsx) or plain text. ${save}`];
	if (has(/^(?:word|ppt)\//)) return ['a text document or presentation', `a workbook (.xlsx) or plain text. ${save}`];
	return [
		'a zip archive that is no workbook',
		'a workbook (.xlsx) or plain text. Unpack it and bring in the list inside'
	];
}
