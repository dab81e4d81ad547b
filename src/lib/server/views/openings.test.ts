import { expect, test } from 'vitest';
import { openingLines, readOpenings } from './openings';

test('open stretches come back from the lines that show them, sorted by date', () => {
	const open = [
		{ date: '2027-01-12', at: '08:00-12:00' },
		{ date: '2027-01-11', at: '13:00-16:00' },
		{ date: '2027-01-11', at: '08:00-12:00' }
	];
	expect(openingLines(open)).toBe('2027-01-11 08:00-12:00 13:00-16:00\n2027-01-12 08:00-12:00');
	expect(readOpenings(openingLines(open))).toHaveLength(3);
	expect(openingLines(readOpenings(openingLines(open)))).toBe(openingLines(open));
});

test('a line that is wrong is kept, so that it can be refused with its place', () => {
	expect(readOpenings('soon\n\n2027-01-11 08:00')).toEqual([
		{ date: 'soon', at: '' },
		{ date: '2027-01-11', at: '08:00' }
	]);
});
