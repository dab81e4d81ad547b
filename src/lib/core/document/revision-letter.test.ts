import { expect, it } from 'vitest';
import { revisionLetter, revisionNumber } from './revision-letter';

it('counts A to Y without letters that look like others, then AA', () => {
	expect([1, 8, 9, 14, 15, 20, 21, 40, 41].map(revisionLetter)).toEqual([
		'A',
		'H',
		'J',
		'P',
		'R',
		'Y',
		'AA',
		'AY',
		'BA'
	]);
});

it('reads back what it writes, and nothing else', () => {
	for (let number = 1; number < 900; number++) expect(revisionNumber(revisionLetter(number))).toBe(number);
	expect(['', 'a', 'I', 'A1'].map(revisionNumber)).toEqual([undefined, undefined, undefined, undefined]);
	expect(() => revisionLetter(0)).toThrow(RangeError);
});
