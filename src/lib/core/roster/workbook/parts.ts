import { type NumberFormat, builtInFormat, readNumberFormat } from './number-format';
import type { DateSystem } from './serial-date';
import { readXml } from './xml';

/** A sheet as the workbook lists it. */
export interface SheetEntry {
	readonly name: string;
	readonly isHidden: boolean;
	readonly relation: string;
}

/** A relation from one part to another: what it is (the last word of its type), and the name of the part. */
export interface Relation {
	readonly kind: string;
	readonly target: string;
}

/** Reads the relations of a part; targets are named from the root. @source ECMA-376 part 2, 6.5 */
export function readRelations(bytes: Uint8Array, folder: string): ReadonlyMap<string, Relation> {
	const relations = new Map<string, Relation>();
	readXml(bytes, {
		open(name, attribute) {
			const target = attribute('Target');
			if (name !== 'Relationship' || target === undefined || attribute('TargetMode') === 'External') return;
			const kind = /[^/]*$/.exec(attribute('Type') ?? '')?.[0] ?? '';
			relations.set(attribute('Id') ?? '', { kind, target: resolved(folder, target) });
		}
	});
	return relations;
}

function resolved(folder: string, target: string): string {
	const steps = target.startsWith('/') ? [] : folder.split('/').filter((step) => step !== '');
	for (const step of target.split('/')) {
		if (step === '..') steps.pop();
		else if (step !== '' && step !== '.') steps.push(step);
	}
	return steps.join('/');
}

/** Reads the list of sheets and the date system. @source ECMA-376 part 1, 18.2.19 (sheet), 18.2.28 (workbookPr) */
export function readWorkbookPart(bytes: Uint8Array): { sheets: SheetEntry[]; dateSystem: DateSystem } {
	const sheets: SheetEntry[] = [];
	let dateSystem: DateSystem = '1900';
	readXml(bytes, {
		open(name, attribute) {
			if (name === 'workbookPr' && /^(?:1|true|on)$/.test(attribute('date1904') ?? '')) dateSystem = '1904';
			if (name !== 'sheet') return;
			sheets.push({
				name: attribute('name') ?? '',
				isHidden: /hidden/i.test(attribute('state') ?? ''),
				relation: attribute('id') ?? ''
			});
		}
	});
	return { sheets, dateSystem };
}

/** Reads the texts that cells share: rich text run together, readings of characters left out. @source 18.4.8, 18.4.6 */
export function readSharedStrings(bytes: Uint8Array): string[] {
	const strings: string[] = [];
	let text = '';
	let isText = false;
	let isReading = false;
	readXml(bytes, {
		open(name) {
			if (name === 'si') text = '';
			else if (name === 'rPh') isReading = true;
			else if (name === 't') isText = !isReading;
		},
		close(name) {
			if (name === 'si') strings.push(unescaped(text));
			else if (name === 'rPh') isReading = false;
			else if (name === 't') isText = false;
		},
		text(piece) {
			if (isText) text += piece;
		}
	});
	return strings;
}

/** Characters that XML cannot hold are written `_x000D_`. @source ECMA-376 part 1, 22.9.2.19 (ST_Xstring) */
export function unescaped(text: string): string {
	return text.includes('_x')
		? text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, code: string) => String.fromCharCode(parseInt(code, 16)))
		: text;
}

/** Reads the number format of each cell style, by its index. @source ECMA-376 part 1, 18.8.10 (cellXfs), 18.8.30 */
export function readStyles(bytes: Uint8Array): NumberFormat[] {
	const formats = new Map<number, NumberFormat>();
	const styles: NumberFormat[] = [];
	let isInStyles = false;
	readXml(bytes, {
		open(name, attribute) {
			if (name === 'numFmt')
				formats.set(Number(attribute('numFmtId')), readNumberFormat(attribute('formatCode') ?? ''));
			else if (name === 'cellXfs') isInStyles = true;
			else if (name === 'xf' && isInStyles) {
				const id = Number(attribute('numFmtId') ?? 0);
				styles.push(formats.get(id) ?? builtInFormat(id));
			}
		},
		close(name) {
			if (name === 'cellXfs') isInStyles = false;
		}
	});
	return styles;
}
