import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lines, readRoster } from '../../../../tests/support/read-roster';
import { mapOf, shapeOf } from './list-map';

test('lists with the same headers have one shape, whatever stands in them; a list without headers has none', () => {
	const shape = shapeOf(readRoster(lines('Pers.-Nr.;Name;Abteilung', '1;Ana;Dock')).columns);
	expect(shape).toBe('["pers.-nr.","name","abteilung"]');
	expect(shapeOf(readRoster(lines('﻿PERS.-NR.;name ;Abteilung', '9;Ben;', '8;Cem;')).columns)).toBe(shape);
	const lettered = ['A', 'B', 'C'].map((header) => ({ header, field: null, sure: 1 }));
	expect(shapeOf(lettered)).toBeUndefined();
});

test('a list that is read with its own map says the same', () => {
	const headers = fc.uniqueArray(
		fc.constantFrom(
			'id',
			'name',
			'Vorname',
			'Nachname',
			'Abteilung',
			'Notes',
			'Start date',
			'E-Mail',
			'Badge',
			'Shift'
		),
		{ minLength: 2, maxLength: 8 }
	);
	const cell = fc.constantFrom('1', '17', 'Ana', 'Ruiz', 'Dock', '03/04/2027', 'a@b.example', 'x', '');
	fc.assert(
		fc.property(headers, fc.array(fc.array(cell, { minLength: 8, maxLength: 8 }), { maxLength: 6 }), (head, rows) => {
			const first = ['id', 'name', ...head.filter((one) => one !== 'id' && one !== 'name')];
			const text = lines(first.join(';'), ...rows.map((cells) => first.map((_, at) => cells[at] ?? '').join(';')));
			const answer = readRoster(text);
			const map = JSON.parse(JSON.stringify(mapOf(answer.columns, {}))) as unknown;
			const again = readRoster(text, { map });
			expect(again.columns.map(({ field }) => field)).toEqual(answer.columns.map(({ field }) => field));
			expect({ ...again, columns: [] }).toEqual({ ...answer, columns: [] });
		}),
		{ numRuns: 60 }
	);
});

test('what was said of dates, encoding, delimiter and sheet is in the map too', () => {
	const { columns } = readRoster(lines('id|name', '1|Ana'));
	expect(mapOf(columns, { dateOrder: 'day-first', delimiter: '|', encoding: undefined, sheet: null })).toEqual({
		columns: { id: 'id', name: 'name' },
		dateOrder: 'day-first',
		delimiter: '|'
	});
});
