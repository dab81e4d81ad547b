import { expect, test } from 'vitest';
import { fault, pathOf, shown } from './fault';

test('a path is written as RFC 9535, section 2.7 has it, in its short form where that is possible', () => {
	expect(pathOf([])).toBe('$');
	expect(pathOf(['doors', 0, 'from'])).toBe('$.doors[0].from');
	expect(pathOf(["it's", 'a\nb', '\u000b', '1', 'a\\'])).toBe("$['it\\'s']['a\\nb']['\\u000b']['1']['a\\\\']");
});

test('a fault says where, what was found, what was expected and what may have been meant', () => {
	expect(fault(['a', 1], 'loby', 'an area', 'lobby')).toEqual({
		path: '$.a[1]',
		value: 'loby',
		expected: 'an area',
		nearest: 'lobby',
		message: '$.a[1]: found "loby", expected an area; did you mean "lobby"?'
	});
	expect(fault(['a'], undefined, 'an area')).toMatchObject({
		value: null,
		message: '$.a: found nothing, expected an area'
	});
});

test('a value is shown as JSON, cut after 80 characters', () => {
	for (const value of [null, true, 1.5, 'a"b', [], {}, [1, [2, 'x']], { a: { b: [null] }, c: '' }]) {
		expect(shown(value)).toBe(JSON.stringify(value));
	}
	expect(shown(Array.from({ length: 1000 }, (_, n) => n))).toMatch(/^\[0,1,2,.*…$/);
	expect(shown('x'.repeat(500))).toHaveLength(78);
	expect(shown(Number.NaN)).toBe('null');
});

test('a value is carried whole up to 2000 characters, a huge or deeply nested one as it is shown', () => {
	const small = { list: Array.from({ length: 200 }, (_, n) => n) };
	expect(fault([], small, 'less').value).toBe(small);
	expect(fault([], 'x'.repeat(1998), 'less').value).toHaveLength(1998);
	expect(fault([], 'x'.repeat(1999), 'less').value).toHaveLength(78);
	expect(
		fault(
			[],
			Array.from({ length: 100_000 }, () => ({})),
			'less'
		).value
	).toMatch(/^\[\{\},\{\},.*…$/);
	let deep: unknown = 1;
	for (let n = 0; n < 100_000; n++) deep = [deep];
	expect(fault([], deep, 'less').value).toMatch(/^\[{10,}…$/);
});
