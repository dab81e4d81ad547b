import { expect, test } from 'vitest';
import { contentsFor, noticeContents } from './notice-contents';
import { rulePacks } from './packs';

test('every rule pack has what its notices are held to, each once, with its source', () => {
	expect([...new Set(noticeContents.map(({ pack }) => pack))].sort()).toEqual([...rulePacks.keys()].sort());
	expect(new Set(noticeContents.map(({ id }) => id)).size).toBe(noticeContents.length);
	for (const { says, source } of noticeContents) expect(Math.min(says.length, source.length)).toBeGreaterThan(9);
});

test('740 ILCS 14/15(b) asks for three things in writing and a written release', () => {
	const il = contentsFor(['us-il']).filter(({ source }) => source === '740 ILCS 14/15(b)');
	expect(il.map(({ id }) => id)).toEqual(['us-il/collected', 'us-il/purpose', 'us-il/term', 'us-il/release']);
	expect(contentsFor([])).toEqual([]);
});
