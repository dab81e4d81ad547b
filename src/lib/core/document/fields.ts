import { z } from 'zod';
import { type LocalDate, isLocalDate } from '../calendar/local-date';
import { type LocalDateTime, isLocalDateTime } from '../calendar/local-date-time';
import { readStretch } from '../calendar/stretch';

/**
 * The leaves of the document and the ways to put them together. The message of every schema is what was *expected*;
 * where and what was found is added when faults are made from issues (`faults-of-issues.ts`).
 */

const printable = /^[^\p{Cc}\p{Cs}\p{Zl}\p{Zp}]+$/u;

/** Text that fits a test. */
export function text(expected: string, fits: (value: string) => boolean) {
	return z.string({ error: expected }).refine(fits, { error: expected });
}

/** 1 to 64 printable characters, compared exactly. */
export const id = text(
	'an id: 1 to 64 printable characters',
	(value) => printable.test(value) && [...value].length <= 64
).meta({ title: 'id' });

/** Free words: any text. */
export const words = z.string({ error: 'text' });

/** Free words that stand for something, such as a kind of holiday: not empty. */
export const word = text('text that is not empty', (value) => value.length > 0);

/** A calendar date that exists. */
export const date = z
	.custom<LocalDate>((value) => typeof value === 'string' && isLocalDate(value), {
		error: 'a date that exists, like 2027-01-04'
	})
	.meta({ title: 'date', type: 'string', format: 'date', examples: ['2027-01-04'] });

/** A local date and time of day, without offset. */
export const dateTime = z
	.custom<LocalDateTime>((value) => typeof value === 'string' && isLocalDateTime(value), {
		error: 'a local date and time, like 2027-01-11T08:00'
	})
	.meta({ title: 'date-time', type: 'string', examples: ['2027-01-11T08:00'] });

/** A stretch of a day. */
export const stretchText = text(
	'a stretch of a day, like 07:00-19:00 (24:00 only as its end)',
	(value) => readStretch(value) !== undefined
).meta({ title: 'stretch', examples: ['07:00-19:00', '22:00-06:00', '00:00-24:00'] });

/** A whole number from `least` (and to `most`). */
export function whole(least = 0, most = Number.MAX_SAFE_INTEGER) {
	const expected =
		most === Number.MAX_SAFE_INTEGER ? `a whole number, ${least} or more` : `a whole number from ${least} to ${most}`;
	return z.int({ error: expected }).min(least, { error: expected }).max(most, { error: expected });
}

/** A number from `least` to `most`, both included. */
export function amount(least = 0, most = Number.MAX_VALUE) {
	const expected = most === Number.MAX_VALUE ? `a number, ${least} or more` : `a number from ${least} to ${most}`;
	return z.number({ error: expected }).min(least, { error: expected }).max(most, { error: expected });
}

/** True or false. */
export const yesOrNo = z.boolean({ error: 'true or false' });

/** One of fixed words. */
export function oneOf<const T extends readonly [string, ...string[]]>(values: T) {
	return z.enum(values, { error: `one of ${values.map((value) => JSON.stringify(value)).join(', ')}` });
}

/** Fixed text. */
export function exactly<const T extends string | number>(value: T) {
	return z.literal(value, { error: JSON.stringify(value) });
}

/** A list of entries, empty when left out. */
export function listOf<T extends z.ZodType>(entry: T) {
	return orElse(z.array(entry, { error: 'a list' }), (): z.output<T>[] => []);
}

/** A field that may be left out or null, and then counts as null. */
export function maybe<T extends z.ZodType>(schema: T) {
	// Not by `orElse`: most keys of most entries are of this kind, and a transform takes three times as long.
	return schema.nullable().default(null as never);
}

/** A field that may be left out or null, and then counts as what `fallback` gives. */
export function orElse<T extends z.ZodType, F>(schema: T, fallback: () => F) {
	return schema
		.nullish()
		.transform((value): Exclude<z.output<T>, null | undefined> | F =>
			value === null || value === undefined ? fallback() : (value as Exclude<z.output<T>, null | undefined>)
		);
}

const keysPrefix = 'one of the keys ';

/** An object with these keys and no others. */
export function entry<T extends z.core.$ZodLooseShape>(shape: T) {
	const keys = Object.keys(shape);
	return z.strictObject(shape, {
		error: (issue) =>
			issue.code === 'unrecognized_keys' ? keysPrefix + keys.join(', ') : `an object with the keys ${keys.join(', ')}`
	});
}

/** The known keys that the message of an `entry` tells, for offering the nearest one. */
export function keysExpected(message: string): readonly string[] {
	return message.startsWith(keysPrefix) ? message.slice(keysPrefix.length).split(', ') : [];
}
