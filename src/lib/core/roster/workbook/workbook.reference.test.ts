import fc from 'fast-check';
import readXlsxFile from 'read-excel-file/universal';
import { expect, test } from 'vitest';
import writeXlsxFile, { type SheetData } from 'write-excel-file/universal';
import { importRoster } from '../import-roster';
import { readWorkbook } from './read-workbook';

/** A workbook by write-excel-file, which shares nothing with the reader. */
async function written(data: SheetData): Promise<ArrayBuffer> {
	return (await writeXlsxFile(data, { sheet: 'Staff' }).toBlob()).arrayBuffer();
}

test('a list that write-excel-file wrote is read as it was', async () => {
	const header = ['Staff No.', 'Name', 'Department', 'Start date'].map((value) => ({ value, type: String }));
	const bytes = await written([
		header,
		[
			{ value: '00123', type: String },
			{ value: "Zoë O'Neil-Løkke & Søn <3", type: String },
			null,
			{ value: new Date('2027-01-04T00:00:00Z'), type: Date, format: 'dd/mm/yyyy' }
		],
		[
			{ value: 45, type: Number, format: '00000' },
			{ value: '李 小龍', type: String },
			{ value: 'Packing', type: String },
			{ value: new Date('1999-12-31T00:00:00Z'), type: Date, format: 'mmm d, yyyy' }
		]
	]);
	const result = importRoster(new Uint8Array(bytes));
	expect(result.ok && result.value.people).toEqual([
		{ id: '00123', name: "Zoë O'Neil-Løkke & Søn <3", department: null, startsOn: '2027-01-04' },
		{ id: '00045', name: '李 小龍', department: 'Packing', startsOn: '1999-12-31' }
	]);
	expect(result.ok && result.value.problems).toEqual([]);
});

test('read-excel-file, an independent reader, reads the same cells of any workbook', async () => {
	const text = fc
		.string({
			unit: fc.constantFrom('a', 'Ü', '李', '0', ' ', '&', '<', '"', "'", '_', 'x'),
			minLength: 1,
			maxLength: 8
		})
		.filter((value) => value.trim() === value);
	const cell = fc.oneof(
		fc.constant(null),
		text.map((value) => ({ value, type: String })),
		fc.integer({ min: -1e9, max: 1e9 }).map((value) => ({ value, type: Number })),
		fc.boolean().map((value) => ({ value, type: Boolean })),
		fc
			.integer({ min: 0, max: 60_000 })
			.map((day) => ({ value: new Date(day * 86_400_000), type: Date, format: 'yyyy-mm-dd' }))
	);
	const full = fc.constant({ value: 'end', type: String });
	const row = fc.tuple(fc.array(cell, { minLength: 3, maxLength: 3 }), full).map(([cells, last]) => [...cells, last]);
	await fc.assert(
		fc.asyncProperty(fc.array(row, { minLength: 1, maxLength: 6 }), async (data) => {
			const bytes = await written(data);
			const [theirs] = await readXlsxFile(bytes);
			const ours = readWorkbook(new Uint8Array(bytes));
			if (!ours.ok || !theirs) throw new Error('not read');
			const shown = theirs.data.map((cells) =>
				cells.map((value) => {
					if (value instanceof Date) return value.toISOString().slice(0, 10);
					return value === null ? '' : typeof value === 'boolean' ? String(value).toUpperCase() : String(value);
				})
			);
			expect(ours.value.sheets[0]?.records).toEqual(shown);
		}),
		{ numRuns: 60 }
	);
});
