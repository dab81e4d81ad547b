import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findJsonEnd } from './json-place';
import { readDocument } from './read';

function parses(text: string): boolean {
	try {
		JSON.parse(text);
		return true;
	} catch {
		return false;
	}
}

describe('where a text stops being JSON', () => {
	it.each([
		['hello', 0],
		['{"a":x}', 5],
		['{"a":1,}', 7],
		['{"a" 1}', 5],
		['{"a":"\t"}', 6],
		['{"a":"\\x"}', 6],
		['[1]x', 3],
		['[1,2', 4],
		['[01]', 2],
		['[1}', 2],
		['{]', 1],
		['{1:2}', 1],
		['"abc', 4],
		['[tru', 4],
		['[trx', 1],
		['-', 1],
		['0.', 2],
		['[1e+', 4],
		['"\\u00', 5],
		['', 0]
	])('%j at %i', (text, at) => {
		expect(findJsonEnd(text)).toBe(at);
	});

	it('nowhere in JSON, and somewhere in every other text (JSON.parse of ECMAScript)', () => {
		const damaged = fc
			.tuple(
				fc.json(),
				fc.nat(),
				fc.constantFrom('', ',', '}', ']', '"', ':', 'x', '\\', '1', ' ', '\n', '-', '.'),
				fc.nat(2)
			)
			.map(([json, place, put, cut]) => {
				const at = place % (json.length + 1);
				return json.slice(0, at) + put + json.slice(at + cut);
			});
		fc.assert(
			fc.property(fc.oneof(fc.json(), damaged, fc.string()), (text) => {
				expect(findJsonEnd(text) === undefined).toBe(parses(text));
			}),
			{ numRuns: 3000 }
		);
	});

	it('what stands before the place can still become JSON, with one character more it cannot', () => {
		fc.assert(
			fc.property(fc.json(), fc.nat(), (json, place) => {
				const before = json.slice(0, place % json.length);
				// A control character stands nowhere in JSON, not even inside of quotes.
				const broken = `${before}\u0001${json}`;
				expect(findJsonEnd(broken)).toBeLessThanOrEqual(before.length);
				expect(findJsonEnd(before) ?? before.length).toBe(before.length);
			}),
			{ numRuns: 1000 }
		);
	});
});

it('a file that is no JSON at all is told at its first character, not at its end', () => {
	const read = readDocument('aGVsbG8gd29ybGQ=\nZm9v\n', { regimes: [] });
	expect(read.ok ? [] : read.faults.map(({ expected }) => expected)).toEqual([
		'JSON; it stops being JSON at line 1, column 1'
	]);
});

it('a file that is cut short is told at its end', () => {
	const read = readDocument('{ "format": "doorwright.rollout",\n "site": { "na', { regimes: [] });
	expect(read.ok ? [] : read.faults.map(({ expected }) => expected)).toEqual([
		'complete JSON; it breaks off at line 2, column 15. The file may be cut short'
	]);
});
