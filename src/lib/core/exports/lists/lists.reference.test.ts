import fc from 'fast-check';
import Papa from 'papaparse';
import { readSheet } from 'read-excel-file/node';
import { describe, expect, test } from 'vitest';
import { rolloutOf } from '../../../../../tests/support/rollout-of';
import { localDate } from '../../calendar/local-date';
import type { RolloutDocument } from '../../document/schema';
import { csvPieces } from '../support/csv';
import { firstColumns, heldChoice, stillHeld, tableChoice } from '../support/table-choice';
import { mostWorkbookRows, workbookOf } from '../support/workbook';
import type { Cell, List, ListInput, OfferedColumn } from './define-list';
import { listsByName } from './index';

const document: Partial<RolloutDocument> = {
	areas: [{ id: 'street', name: 'Street', outside: true }, { id: 'hall' }],
	controllers: [{ id: 'c1', maxDoors: 4 }],
	doors: [{ id: 'main', name: 'Main', from: 'street', to: 'hall', controller: 'c1' }],
	doorGroups: [{ id: 'all', doors: ['main'] }],
	readers: [{ id: 'r1', door: 'main', milliamps: 450.5 }],
	schedules: [{ id: 'office', name: 'Office', week: { mon: ['07:00-19:00'] }, holidays: { public: ['08:00-12:00'] } }],
	holidays: { days: [{ date: '2027-01-18', name: 'Day off', kind: 'public' }] as never },
	people: [
		{
			id: '00123',
			name: 'Ann "Rolling" Sørby, Ms',
			department: '=SUM(A1)',
			startsOn: '2027-01-05' as never,
			wave: 'w1'
		},
		{ id: '1E5', name: '@total', email: '+49 30 1', shiftPattern: 'early' },
		{ id: '-7', name: 'Two\r\nlines; and "more"', needs: [' =1+1', '＝2'] }
	],
	shiftPatterns: [
		{ id: 'early', anchor: '2027-01-04' as never, cycleDays: 7, shifts: [{ day: 0, at: '06:00-14:00' }] }
	],
	absences: [{ person: '1E5', from: '2027-02-01' as never }],
	accessProfiles: [{ id: 'staff', entries: [{ doorGroup: 'all', schedule: 'office' }] }, { id: 'empty' }],
	assignments: [{ id: 'a1', who: { everyone: true }, accessProfile: 'staff', from: '2027-01-25' as never }],
	enrollment: {
		captureClasses: [{ id: 'standard', minutes: 8 }],
		waves: [{ id: 'w1', goLive: '2027-01-25' as never }],
		stations: [{ id: 's1', area: 'hall', open: [{ date: '2027-01-11' as never, at: '08:00-12:00' }] }],
		bookings: [{ person: '00123', station: 's1', lane: 1, start: '2027-01-11T08:05' as never, minutes: 8, fixed: true }]
	},
	privacy: {
		regimes: ['us-il'],
		notices: [{ id: 'n1', version: '1.0' }],
		consents: [{ person: '00123', notice: 'n1', decision: 'given', on: '2027-01-05' as never }],
		templates: [
			{
				person: '00123',
				enrolledOn: '2027-01-11' as never,
				storedOn: ['c1', 'c2'],
				erasures: [{ from: 'c2', on: '2027-06-02' as never }]
			}
		],
		holds: [{ person: '00123', reason: 'Claim' }]
	}
};
const input: ListInput = {
	rollout: rolloutOf(document),
	today: localDate('2027-03-01'),
	findings: [
		{ code: 'no-route', severity: 'error', message: 'No.', subject: { door: 'main' }, dates: ['2027-01-05'], count: 2 }
	],
	changes: [
		{
			number: 1,
			at: '2026-11-25T09:30:15.000Z',
			who: 'Nora',
			what: 'Imported',
			edit: 'import',
			revision: 'abc',
			undoes: null,
			undoneBy: null
		}
	]
};
const all = [...listsByName.values()];

function listNamed(name: string): List {
	const list = listsByName.get(name);
	if (!list) throw new Error(`there is no list ${name}`);
	return list;
}

function everyColumn(list: List): { columns: readonly OfferedColumn[]; rows: (readonly Cell[])[] } {
	const columns = list.offered(input);
	return {
		columns,
		rows: [
			...list.cells(
				input,
				columns.map(({ key }) => key)
			)
		]
	};
}

/** Bytes as read-excel-file, an independent reader, gives them. */
async function readBack(name: string, columns: readonly OfferedColumn[], rows: readonly (readonly Cell[])[]) {
	const made = await workbookOf(name, columns, rows);
	if (!made.ok) throw new Error(made.faults[0]?.message);
	const read = await readSheet(Buffer.from(made.value));
	// A workbook counts days: a time of day is a fraction, and comes back less than a second off.
	return read.map((row) =>
		row.map((cell) => (cell instanceof Date ? new Date(Math.round(cell.getTime() / 1000) * 1000) : cell))
	);
}

const textColumn: OfferedColumn = { key: 'a', label: 'A', type: 'text' };

describe.each(all.map((list) => [list.name, list] as const))('the list %s', (_, list) => {
	test('has rows here, and cells of the type that each column names', () => {
		const { columns, rows } = everyColumn(list);
		expect(rows.length).toBeGreaterThan(0);
		expect(new Set(columns.map(({ key }) => key)).size).toBe(columns.length);
		expect(new Set(columns.map(({ label }) => label)).size).toBe(columns.length);
		columns.forEach(({ type, key }, place) => {
			for (const row of rows) {
				const cell = row[place] ?? null;
				if (cell === null) continue;
				const form = { date: /^\d{4}-\d\d-\d\d$/, 'date-time': /^\d{4}-\d\d-\d\dT\d\d:\d\d$/ }[type as string];
				if (form) expect(cell, key).toMatch(form);
				else expect(typeof cell, key).toBe({ text: 'string', number: 'number', 'yes-no': 'boolean' }[type as string]);
			}
		});
	});

	test('comes back as written from a CSV, by a reader that knows nothing of us (RFC 4180, section 2)', () => {
		const { columns, rows } = everyColumn(list);
		const text = [
			...csvPieces(
				columns.map(({ label }) => label),
				rows
			)
		].join('');
		expect(text.replaceAll('\r\n', '').replaceAll(/"[^"]*"/g, '')).not.toMatch(/[\r\n]/);
		const { data, errors } = Papa.parse<string[]>(text.replace(/^\ufeff/, '').replace(/\r\n$/, ''));
		expect(errors).toEqual([]);
		expect(data[0]).toEqual(columns.map(({ label }) => label));
		expect(data.slice(1)).toEqual(rows.map((row) => row.map(plainText)));
	});

	test('comes back from a workbook with dates, numbers and text as such', async () => {
		const { columns, rows } = everyColumn(list);
		const [, ...read] = await readBack(list.title, columns, rows);
		expect(read).toEqual(rows.map((row) => row.map((cell, place) => typed(cell, columns[place]?.type ?? 'text'))));
	});
});

/** A cell as a CSV shows it. */
function plainText(cell: Cell): string {
	if (cell === null) return '';
	if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
	const text = String(cell);
	return /^[\s]*[=+\-@＝]/.test(text) ? `'${text}` : text;
}

/** A cell as the reader of workbooks gives it. */
function typed(cell: Cell, type: OfferedColumn['type']): unknown {
	if (cell === null || cell === '') return null;
	if (type === 'date') return new Date(`${String(cell)}T00:00:00Z`);
	// The reader trims text.
	return type === 'date-time' ? new Date(`${String(cell)}:00Z`) : typeof cell === 'string' ? cell.trim() : cell;
}

describe('cells that a spreadsheet would take for a formula (V-CSV-02)', () => {
	test('are text in a CSV, whatever parts the columns', () => {
		fc.assert(
			fc.property(
				fc.constantFrom(',', ';', '\t', '|'),
				fc.array(
					fc.array(
						fc.string({
							unit: fc.constantFrom('=', '+', '-', '@', ' ', '\t', '\r', '\n', ',', ';', '"', "'", 'a', '1', '\uff1d')
						}),
						{ minLength: 2, maxLength: 2 }
					),
					{ minLength: 1 }
				),
				(delimiter, rows) => {
					const text = [...csvPieces(['a', 'b'], rows, delimiter)].join('').replace(/^\ufeff/, '');
					const { data } = Papa.parse<string[]>(text, { delimiter, skipEmptyLines: false });
					const read = data.slice(1, -1);
					expect(read.length).toBe(rows.length);
					read.forEach((row, place) =>
						row.forEach((cell, at) => {
							expect(cell).not.toMatch(/^[\s]*[=+\-@\uff1d]/);
							// Nothing but the apostrophe is added.
							expect([rows[place]?.[at], `'${rows[place]?.[at] ?? ''}`]).toContain(cell);
						})
					);
				}
			)
		);
	});

	test('are text in a workbook, and numbers that are text keep their zeros (V-CSV-01)', async () => {
		const rows = ['=1+1', '+1', '-1', '@x', '00123', '1E5', '2027-01-04'].map((text) => [text]);
		const read = await readBack('x', [textColumn], rows);
		expect(read.slice(1)).toEqual(rows);
	});
});

test('a column of one empty cell is a row, not an empty line', () => {
	expect([...csvPieces(['a'], [['']])].join('')).toBe('\ufeff"a"\r\n""\r\n');
});

test('a long table is written piece by piece and is the same as a whole', () => {
	const rows = Array.from({ length: 2500 }, (_, n) => [n, `row ${n}`]);
	const pieces = [...csvPieces(['n', 'text'], rows)];
	expect(pieces.length).toBe(3);
	const { data } = Papa.parse<string[]>(pieces.join('').replace(/^\ufeff/, ''), { skipEmptyLines: true });
	expect(data.slice(1)).toEqual(rows.map((row) => row.map(String)));
});

test('a workbook holds what XML cannot, says where it cuts, and refuses more rows than it bears', async () => {
	const read = await readBack(
		'A/B: [all]',
		[textColumn],
		[['bell \u0007'], ['_x0007_'], ['half \ud800 \ufffd'], ['x'.repeat(40_000)]]
	);
	const texts = read.slice(1).map(([cell]) => String(cell));
	expect(texts[0]).toBe('bell \u0007');
	expect(texts[1]).toBe('_x0007_');
	expect(texts[2]).toBe('half \ud800 \ufffd');
	expect(texts[3]?.length).toBe(32_767);
	expect(texts[3]).toMatch(/the CSV has all\)$/);
	function* many(): Generator<Cell[]> {
		for (let n = 0; n <= mostWorkbookRows; n++) yield [null];
	}
	const refused = await workbookOf('x', [textColumn], many());
	expect(refused.ok ? [] : refused.faults.map(({ path }) => path)).toEqual(['$.format']);
});

describe('a choice of columns', () => {
	const people = listNamed('people');

	test('sets which there are, and their order', () => {
		const choice = heldChoice(people, input, tableChoice.parse({ columns: ['wave', 'id'] }));
		expect(choice.ok && [...people.cells(input, choice.value.columns)][0]).toEqual(['w1', '00123']);
	});

	test('is refused for unknown, repeated and no columns, with the nearest name', () => {
		const choice = heldChoice(people, input, tableChoice.parse({ columns: ['nmae', 'id', 'id'] }));
		expect(choice.ok ? [] : choice.faults.map(({ path, nearest }) => [path, nearest])).toEqual([
			['$.columns[0]', 'name'],
			['$.columns[2]', undefined]
		]);
		expect(heldChoice(people, input, tableChoice.parse({ columns: [] })).ok).toBe(false);
	});

	test('that was remembered loses only what the document no longer has', () => {
		const holidays = listNamed('holidays');
		const remembered = tableChoice.parse({ columns: ['schedule:gone', 'date', 'schedule:office'], format: 'xlsx' });
		expect(stillHeld(holidays, input, remembered)).toEqual({
			columns: ['date', 'schedule:office'],
			format: 'xlsx',
			delimiter: 'comma'
		});
		expect(stillHeld(people, input, tableChoice.parse({ columns: ['gone'] })).columns).toEqual(
			firstColumns(people, input)
		);
	});
});
