import { describe, expect, test } from 'vitest';
import { inOrder } from './date-order';
import { looksLikeDate, readDate } from './read-date';

const dateIn = (text: string): string => {
	const reading = readDate(text);
	return reading.kind === 'date' ? reading.date : reading.kind;
};

describe('one date, whatever the order', () => {
	test.each([
		['2027-01-04', '2027-01-04'],
		['2027-1-4', '2027-01-04'],
		['2027/01/04', '2027-01-04'],
		['2027.01.04.', '2027-01-04'],
		['20270104', '2027-01-04'],
		['2027-01-04T00:00:00', '2027-01-04'],
		['2027-01-04 08:30', '2027-01-04'],
		['2027-01-04T00:00:00.000Z', '2027-01-04'],
		['2024-02-29', '2024-02-29'],
		['9999-12-31', '9999-12-31'],
		['4 January 2027', '2027-01-04'],
		['January 4th, 2027', '2027-01-04'],
		['Jan 4, 2027', '2027-01-04'],
		['04-Jan-27', '2027-01-04'],
		['4. März 2027', '2027-03-04'],
		['4. Jänner 2027', '2027-01-04'],
		['1er février 2027', '2027-02-01'],
		['4 août 2027', '2027-08-04'],
		['4 de enero de 2027', '2027-01-04'],
		['4 stycznia 2027 r.', '2027-01-04'],
		['4 października 2027', '2027-10-04'],
		['4 XII 2027', '2027-12-04'],
		['4-dic-2027', '2027-12-04'],
		['Mon, 4 Jan 2027', '2027-01-04'],
		['mar 4 mai 2027', '2027-05-04'],
		['Mar 4 2027', '2027-03-04'],
		['2027-Jan-04', '2027-01-04']
	])('%s is %s', (text, date) => {
		expect(dateIn(text)).toBe(date);
	});
});

describe('two orders', () => {
	test.each([
		['04.01.2027', '2027-01-04', '2027-04-01'],
		['4. 1. 2027', '2027-01-04', '2027-04-01'],
		['4/1/2027', '2027-01-04', '2027-04-01'],
		['04-01-27', '2027-01-04', '2027-04-01'],
		['13/02/2027', '2027-02-13', null],
		['02/13/2027', null, '2027-02-13'],
		['Mo, 04.01.2027', '2027-01-04', '2027-04-01'],
		['4/1/2027 12:00:00 AM', '2027-01-04', '2027-04-01'],
		['05.03.98', '1998-03-05', '1998-05-03'],
		['05.03.49', '2049-03-05', '2049-05-03']
	])('%s is %s day first and %s month first', (text, dayFirst, monthFirst) => {
		const reading = readDate(text);
		if (reading.kind !== 'numeric') throw new Error(reading.kind);
		expect(inOrder(reading.numeric, 'day-first')).toBe(dayFirst);
		expect(inOrder(reading.numeric, 'month-first')).toBe(monthFirst);
	});
});

describe('no date', () => {
	test.each([
		'2027-02-29',
		'31.02.2027',
		'00.00.0000',
		'2027-13-01',
		'32/01/2027',
		'soon',
		'46391',
		'05.03.60',
		'2027-01-04T23:00:00Z',
		'4 January',
		'1/2/3',
		'30 February 2027',
		'1027-01-04',
		'04.01/2027'
	])('%s', (text) => {
		expect(readDate(text).kind).toBe('invalid');
	});
});

test('a cell looks like a date when it is written as one, whether or not there is such a date', () => {
	expect(['31.02.2027', '2027-01-04', '4 Jan 2027'].every(looksLikeDate)).toBe(true);
	expect(['Packing', '1001', '12.5', '+49 30 123456', 'a@example.org', '20'].some(looksLikeDate)).toBe(false);
});
