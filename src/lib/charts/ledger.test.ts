import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dateOf, epochDayOf, localDate, plusDays, weekdayOf } from '$lib/core/calendar/local-date';
import { type LedgerState, ledger } from './ledger';

const on = localDate('2027-06-01');
const entry = (id: string, state: LedgerState, eraseBy: string | null) => ({
	id,
	name: id,
	state,
	eraseBy: eraseBy === null ? null : localDate(eraseBy)
});

test('rows stand gravest first, their entries in the order of dates', () => {
	const { rows } = ledger(
		[entry('k', 'kept', '2027-07-01'), entry('b', 'overdue', '2027-05-30'), entry('a', 'overdue', '2027-05-20')],
		on
	);
	expect(rows.map((row) => [row.state, row.count])).toEqual([
		['overdue', 2],
		['due', 0],
		['held', 0],
		['kept', 1]
	]);
	expect(rows[0]?.cells.flat().map((one) => one.id)).toEqual(['a', 'b']);
});

test('erased entries are counted, undated ones listed', () => {
	const { erased, undated, rows } = ledger([entry('e', 'erased', '2027-01-01'), entry('u', 'kept', null)], on);
	expect([erased, undated.map((one) => one.id), rows.every((row) => row.count === 0)]).toEqual([1, ['u'], true]);
});

describe('bins', () => {
	test('days, weeks from Monday, months, as the span grows', () => {
		const span = (date: string) => ledger([entry('a', 'kept', date)], on);
		expect(span('2027-07-15').binDays).toBe(1);
		const weeks = span('2027-12-31');
		expect(weeks.binDays).toBe(7);
		expect(weekdayOf(epochDayOf(weeks.bins[0]?.from ?? on))).toBe('mon');
		const months = span('2030-06-01');
		expect(months.binDays).toBe(0);
		expect(months.bins[0]).toEqual({ from: '2027-06-01', until: '2027-06-30' });
		expect(months.bins.at(-1)).toEqual({ from: '2030-06-01', until: '2030-06-30' });
	});

	test('follow each other without gap, and every entry lies in its own', () => {
		const days = fc.array(fc.integer({ min: -400, max: 1600 }), { maxLength: 30 });
		fc.assert(
			fc.property(days, (offsets) => {
				const entries = offsets.map((days, place) => entry(`${place}`, 'kept', dateOf(plusDays(epochDayOf(on), days))));
				const { bins, rows, today } = ledger(entries, on);
				bins.slice(1).forEach((bin, place) => {
					expect(epochDayOf(bin.from) - epochDayOf(bins[place]?.until ?? on)).toBe(1);
				});
				expect(on >= (bins[today]?.from ?? '') && on <= (bins[today]?.until ?? '')).toBe(true);
				const kept = rows.find((row) => row.state === 'kept');
				expect(kept?.cells.flat()).toHaveLength(entries.length);
				kept?.cells.forEach((cell, place) => {
					const bin = bins[place];
					expect(cell.every((one) => bin && one.eraseBy && one.eraseBy >= bin.from && one.eraseBy <= bin.until)).toBe(
						true
					);
				});
			})
		);
	});
});
