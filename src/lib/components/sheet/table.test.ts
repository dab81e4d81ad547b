import { describe, expect, test } from 'vitest';
import { readSorting, sortHref, withParameters } from './table';

const url = (query: string) => new URL(`http://127.0.0.1/r/one/people${query}`);

describe('sorting stands in the address', () => {
	test('read ascending and descending', () => {
		expect(readSorting(url('?sort=name'), ['name'])).toEqual({ key: 'name', isDescending: false });
		expect(readSorting(url('?sort=-name'), ['name'])).toEqual({ key: 'name', isDescending: true });
	});

	test('a column that there is not counts as none', () => {
		expect(readSorting(url('?sort=shoe-size'), ['name'])).toBeUndefined();
		expect(readSorting(url(''), ['name'])).toBeUndefined();
	});

	test('the link of a column sorts by it, then turns round', () => {
		expect(sortHref(url('?sort=department'), 'name')).toBe('?sort=name');
		expect(sortHref(url('?sort=name'), 'name')).toBe('?sort=-name');
		expect(sortHref(url('?sort=-name'), 'name')).toBe('?sort=name');
	});

	test('a filter stays, the page does not', () => {
		expect(sortHref(url('?find=ann&page=3'), 'name')).toBe('?find=ann&sort=name');
	});
});

test('taking the last parameter away leaves the bare path, not the address that is open', () => {
	expect(withParameters(url('?find=ann'), { find: null })).toBe('/r/one/people');
});
