import { expect, test } from 'vitest';
import { ownPath } from './own-path';

test.each(['/', '/r/one/people?find=ann&page=2', '/r/%2F/site'])('%s is a path of this app', (path) => {
	expect(ownPath(path)).toBe(path);
});

test.each(['//evil.test/', '/\\evil.test', '/.//evil.test', 'https://evil.test', 'people', '', '/\t/evil.test'])(
	'%j leads elsewhere or nowhere',
	(path) => {
		expect(ownPath(path)).toBeUndefined();
	}
);

test('a file or nothing is no path', () => {
	expect([ownPath(null), ownPath(new File([], 'x'))]).toEqual([undefined, undefined]);
});
