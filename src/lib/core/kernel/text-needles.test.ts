import { expect, test } from 'vitest';
import { TextNeedles } from './text-needles';

function needles(...texts: readonly string[]): TextNeedles {
	const all = new TextNeedles();
	for (const text of texts) all.add(text);
	return all;
}

test('finds whole words in any case, also with dots, hyphens and accents', () => {
	const all = needles('Ada Quill', '00307', 'a.quill@example.org', 'Zoë Ünal-Roth', "O'Neil");
	for (const text of ['of ADA QUILL, on', 'x00307x 00307', '<a.quill@example.org>', 'by zoë ünal-roth.', "o'neil"])
		expect(all.isIn(text), text).toBe(true);
	for (const text of ['Ada Quillon', '100307', '003071', 'Ada', 'quill', 'neil', ''])
		expect(all.isIn(text), text).toBe(false);
});

test('replaces each, the longest that fits', () => {
	const all = needles('Ada', 'Ada Quill', '1002');
	expect(all.replaced('Ada Quill and ada, 1002; 10021', '*')).toBe('* and *, *; 10021');
	expect(all.replaced('İ Ada', '*')).toBe('*');
});

test('passes over what has no letter or digit, and repeats', () => {
	const all = needles('', ' ', '--', 'Ben', 'Ben');
	expect(all.replaced('-- Ben', '*')).toBe('-- *');
});
