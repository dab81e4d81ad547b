import { expect, test } from 'vitest';
import { readShifts, shiftLines } from './shift-lines';

test('shifts come back from the lines that show them, days counted from 1', () => {
	const shifts = [
		{ day: 0, at: '06:00-10:00' },
		{ day: 0, at: '12:00-16:00' },
		{ day: 3, at: '22:00-06:00' }
	];
	expect(shiftLines(shifts)).toBe('1 06:00-10:00 12:00-16:00\n4 22:00-06:00');
	expect(readShifts(shiftLines(shifts))).toEqual(shifts);
});

test('a range of days is each of them; what cannot be read is kept for the refusal', () => {
	expect(readShifts('1-4 06:00-18:00')).toHaveLength(4);
	expect(readShifts('mon 06:00-14:00\n0 06:00-14:00\n2')).toEqual([
		{ day: 'mon', at: '06:00-14:00' },
		{ day: -1, at: '06:00-14:00' },
		{ day: 1, at: '' }
	]);
});
