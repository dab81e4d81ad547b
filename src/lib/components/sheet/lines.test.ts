import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readLines, writeLines } from './lines';

test('one entry per line, whatever the line ends of the system', () => {
	expect(readLines('step-free\r\ninterpreter\rseat\nquiet')).toEqual(['step-free', 'interpreter', 'seat', 'quiet']);
});

test('blanks around an entry, empty lines and repetitions are left out', () => {
	expect(readLines('  a \n\n\tb\na\n')).toEqual(['a', 'b']);
});

test('an entry may hold commas', () => {
	expect(readLines('Packing, early\nPacking, night')).toEqual(['Packing, early', 'Packing, night']);
});

test('what is written is read back', () => {
	const entry = fc
		.string({ minLength: 1 })
		.filter((text) => text === text.trim() && text !== '' && !/[\r\n]/.test(text));
	fc.assert(
		fc.property(fc.uniqueArray(entry), (entries) => {
			expect(readLines(writeLines(entries))).toEqual(entries);
		})
	);
});
