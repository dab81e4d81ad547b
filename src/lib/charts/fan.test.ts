import { expect, test } from 'vitest';
import { fanOf } from './fan';

const days = [
	{ date: '2027-01-11', p10: 0, p50: 5, p90: 10 },
	{ date: '2027-01-13', p10: 10, p50: 15, p90: 20 }
];

test('days lie at their ends by the calendar, gaps between them kept', () => {
	const fan = fanOf(days, 20, 300, 100);
	expect(fan.line).toBe('M100 75L300 25');
	expect(fan.band).toBe('M100 50L300 0L300 50L100 100Z');
	expect(fan.xOf('2027-01-12')).toBe(200);
	expect(fan.xOf('2027-01-14')).toBeUndefined();
});

test('everybody fits under the top, also where nobody is enrolled', () => {
	expect(fanOf(days, 40, 300, 100).most).toBe(40);
	expect(fanOf([], 0, 300, 100)).toMatchObject({ band: '', line: '', most: 1 });
});
