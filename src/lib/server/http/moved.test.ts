import { expect, test } from 'vitest';
import { moved } from './moved';

test('an entry moves by one place, not beyond the ends, and an unknown one not at all', () => {
	expect(moved(['a', 'b', 'c'], 'b', -1)).toEqual(['b', 'a', 'c']);
	expect(moved(['a', 'b', 'c'], 'b', 1)).toEqual(['a', 'c', 'b']);
	expect(moved(['a', 'b', 'c'], 'a', -1)).toEqual(['a', 'b', 'c']);
	expect(moved(['a', 'b', 'c'], 'c', 1)).toEqual(['a', 'b', 'c']);
	expect(moved(['a', 'b'], 'x', 1)).toEqual(['a', 'b']);
});
