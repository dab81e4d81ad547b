import { expect, test } from 'vitest';
import { faultOfKind, faultsByDay } from './schedule-faults';

const faults = [
	{ path: '$.entry.week.mon[1]', value: 'soon', expected: 'a stretch' },
	{ path: "$.entry.holidays['half-day'][0]", value: 'noon', expected: 'a stretch' },
	{ path: '$.entry.holidays.public', value: 3, expected: 'a treatment' },
	{ path: '$.entry.holidays.publicity', value: 4, expected: 'a treatment' }
];

test('a fault stands at its day', () => {
	expect(faultsByDay(faults)).toEqual({ mon: 'Found "soon", expected a stretch.' });
});

test('a fault stands at its kind, whatever its name, and at no other that begins alike', () => {
	expect(faultOfKind(faults, 'half-day')).toBe('Found "noon", expected a stretch.');
	expect(faultOfKind(faults, 'public')).toBe('Found 3, expected a treatment.');
	expect(faultOfKind(faults, 'publicity')).toBe('Found 4, expected a treatment.');
	expect(faultOfKind(faults, 'pub')).toBeUndefined();
});
