import fc from 'fast-check';

/** The smallest parts of random documents, and the ways to put them together: see `arbitrary-rollout.ts`. */

/** Left out: taken away when the object is put together. */
const leftOut = Symbol('left out');

/** Printable, and easily got wrong where text is put into a path, a query or an address. */
const oddIds = [
	'1',
	'01',
	"it's",
	'a.b',
	'a#1',
	'a/b',
	' a',
	'Ä',
	'A\u0308',
	'__proto__',
	'constructor',
	'%_',
	'门',
	'🚪',
	'[0]',
	'"',
	'\\'
];

export const ids = fc.uniqueArray(
	fc.oneof(
		fc.constantFrom(...oddIds),
		fc.string({ minLength: 1, maxLength: 4 }),
		fc
			.string({ unit: 'grapheme', minLength: 1, maxLength: 3 })
			.filter((text) => /^[^\p{Cc}\p{Cs}\p{Zl}\p{Zp}]+$/u.test(text))
	),
	{ maxLength: 4 }
);

export const words = fc.oneof(
	fc.constantFrom('', ' ', 'Packing', '=1+1', '\u0000', '\ud800', '\u2028', 'null', '<b>', "'; --"),
	fc.string({ unit: 'binary', maxLength: 8 })
);
export const word = words.filter((text) => text !== '');
export const date = fc
	.date({ min: new Date('0001-01-01'), max: new Date('9999-12-31'), noInvalidDate: true })
	.map((at) => at.toISOString().slice(0, 10));
export const clock = fc.nat(1439).map((minute) => new Date(minute * 60_000).toISOString().slice(11, 16));
export const stretch = fc.tuple(clock, fc.oneof(clock, fc.constant('24:00'))).map(([from, to]) => `${from}-${to}`);
export const stretches = fc.array(stretch, { maxLength: 3 });
export const whole = fc.oneof(fc.constantFrom(0, 1, 5, Number.MAX_SAFE_INTEGER), fc.nat(100));
export const amount = fc.double({ min: 0, noNaN: true, noDefaultInfinity: true });
export const share = fc.double({ min: 0, max: 1, noNaN: true });
export const yesOrNo = fc.boolean();

/** A value, null, or a key left out. */
export function maybe<T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | null | typeof leftOut> {
	return fc.oneof(
		{ weight: 3, arbitrary: value },
		{ weight: 1, arbitrary: fc.constant(null) },
		{ weight: 2, arbitrary: fc.constant(leftOut) }
	);
}

/** An object with its keys in any order. */
export function object(fields: Readonly<Record<string, fc.Arbitrary<unknown>>>): fc.Arbitrary<Record<string, unknown>> {
	const names = Object.keys(fields);
	return fc
		.tuple(fc.record(fields), fc.shuffledSubarray(names, { minLength: names.length, maxLength: names.length }))
		.map(([values, order]) =>
			Object.fromEntries(order.flatMap((key) => (values[key] === leftOut ? [] : [[key, values[key]]])))
		);
}

/** A list whose entries need something to name; without that only the empty list is there. */
export function list(entry: fc.Arbitrary<unknown>, needed: readonly (readonly string[])[] = []): fc.Arbitrary<unknown> {
	const isPossible = needed.every((names) => names.length > 0);
	return maybe(isPossible ? fc.array(entry, { maxLength: 4 }) : fc.constant<unknown[]>([]));
}

/** One of the ids; never asked where there is none. */
export function one(names: readonly string[]): fc.Arbitrary<string> {
	return fc.constantFrom(...(names.length > 0 ? names : ['']));
}

/** A field that may name an entry. */
export function maybeOne(names: readonly string[]): fc.Arbitrary<unknown> {
	return names.length > 0 ? maybe(one(names)) : fc.constantFrom(null, leftOut);
}

export function some(names: readonly string[]): fc.Arbitrary<unknown> {
	return maybe(names.length > 0 ? fc.array(one(names), { maxLength: 3 }) : fc.constant<string[]>([]));
}

/** One entry for each id, in the order of the ids. */
export function identified(
	names: readonly string[],
	fields: Readonly<Record<string, fc.Arbitrary<unknown>>>
): fc.Arbitrary<Record<string, unknown>[]> {
	return fc.tuple(...names.map((id) => object({ id: fc.constant(id), ...fields })));
}

/** Two dates in order, each of which may be missing. */
export function limits(from: string, until: string): fc.Arbitrary<Record<string, unknown>> {
	return fc.tuple(maybe(date), maybe(date)).map(([a, b]) => {
		const isWrong = typeof a === 'string' && typeof b === 'string' && a > b;
		return { [from]: isWrong ? b : a, [until]: isWrong ? a : b };
	});
}

/** Adds fields that depend on each other to an object. */
export function withFields(entry: fc.Arbitrary<Record<string, unknown>>, more: fc.Arbitrary<Record<string, unknown>>) {
	return fc
		.tuple(entry, more)
		.map(([a, b]) => Object.fromEntries(Object.entries({ ...a, ...b }).filter(([, value]) => value !== leftOut)));
}

/** As `identified`, with fields that depend on each other. */
export function identifiedWith(
	names: readonly string[],
	fields: Readonly<Record<string, fc.Arbitrary<unknown>>>,
	more: fc.Arbitrary<Record<string, unknown>>
): fc.Arbitrary<unknown[]> {
	return fc.tuple(...names.map((id) => withFields(object({ id: fc.constant(id), ...fields }), more)));
}

/** A list that must hold its entries since others name them; empty it may also be missing or null. */
export function filled(names: readonly string[], entries: fc.Arbitrary<unknown>): fc.Arbitrary<unknown> {
	return names.length > 0 ? entries : fc.constantFrom([], null, leftOut);
}
