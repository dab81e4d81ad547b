import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { smallSite } from '../../../../tests/support/small-site';
import { canonicalJson } from './canonical';
import { revisionDigits, revisionOf } from './revision';
import { sha256 } from './sha-256';

const bytesOf = (text: string) => new TextEncoder().encode(text);

describe('SHA-256', () => {
	test.each([
		['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
		['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
		[
			'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
			'248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1'
		]
	])('of %j is as the example values of FIPS 180 say (NIST)', (text, hash) => {
		expect(sha256(bytesOf(text))).toBe(hash);
	});

	test("is that of Node's own implementation for any bytes", () => {
		fc.assert(
			fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
				expect(sha256(bytes)).toBe(createHash('sha256').update(bytes).digest('hex'));
			})
		);
		for (const length of [55, 56, 63, 64, 119, 120, 128]) {
			const bytes = new Uint8Array(length).fill(0xa5);
			expect(sha256(bytes)).toBe(createHash('sha256').update(bytes).digest('hex'));
		}
	});
});

describe('canonical JSON', () => {
	test('is the example of RFC 8785, section 3.2.4', () => {
		const value: unknown = JSON.parse(
			'{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],' +
				'"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}'
		);
		expect(canonicalJson(value)).toBe(
			'{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],' +
				'"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}'
		);
	});

	test('sorts keys as RFC 8785, section 3.2.3 does: by UTF-16 code units', () => {
		const keys = ['\u20ac', '\r', '\ufb33', '1', '\ud83d\ude00', '\u0080', '\u00f6'];
		const sorted = ['\r', '1', '\u0080', '\u00f6', '\u20ac', '\ud83d\ude00', '\ufb33'];
		const text = canonicalJson(Object.fromEntries(keys.map((key) => [key, 0])));
		expect(Object.keys(JSON.parse(text) as object).sort()).toEqual([...sorted].sort());
		expect(text).toBe(`{${sorted.map((key) => `${JSON.stringify(key)}:0`).join(',')}}`);
	});

	test('says the same whatever the order of keys, and holds the whole value', () => {
		fc.assert(
			fc.property(fc.jsonValue(), (value) => {
				expect(canonicalJson(turned(value))).toBe(canonicalJson(value));
				expect(JSON.parse(canonicalJson(value))).toEqual(JSON.parse(JSON.stringify(value)));
			})
		);
	});
});

/** The same JSON value with the keys of each object in the opposite order. */
function turned(value: unknown): unknown {
	if (typeof value !== 'object' || value === null) return value;
	if (Array.isArray(value)) return value.map(turned);
	return Object.fromEntries(
		Object.entries(value)
			.reverse()
			.map(([key, field]) => [key, turned(field)])
	);
}

describe('a revision', () => {
	test('is the start of the SHA-256 of the canonical JSON of the whole document', () => {
		const document = smallSite();
		const hash = createHash('sha256').update(canonicalJson(document)).digest('hex');
		expect(revisionOf(document)).toBe(hash.slice(0, revisionDigits));
	});

	test('does not depend on the order of keys, but on that of entries and on every value', () => {
		const document = smallSite();
		const turned = Object.fromEntries(Object.entries(document).reverse()) as typeof document;
		expect(revisionOf(turned)).toBe(revisionOf(document));
		expect(revisionOf(smallSite({ absences: null }))).not.toBe(revisionOf(smallSite({ absences: [] })));
		const doors = document.doors ?? [];
		expect(revisionOf({ ...document, doors: [...doors].reverse() })).not.toBe(revisionOf(document));
	});
});
