import { shown } from '../../kernel/fault';

const sentences = {
	'person-missing': () => 'Nothing here says who is meant, so it is left out.',
	'person-unknown': (nearest: string | undefined) =>
		`Nobody at the site is meant by this${nearest === undefined ? '' : `; did you mean ${shown(nearest)}?`} It is left out.`,
	'person-ambiguous': (count: number) =>
		`${count} people at the site may be meant by this. It is left out: give the number.`,
	'date-missing': () => 'There is no first day here, so it is left out.',
	'until-before-from': (from: string, until: string) =>
		`The last day, ${until}, lies before the first, ${from}. It is left out.`,
	'pattern-unknown': (nearest: string | undefined) =>
		`This shift pattern is not known at the site${nearest === undefined ? '.' : `; did you mean ${shown(nearest)}?`} It is left out.`,
	'pattern-repeated': () => 'This person has another shift pattern further up. The first one is taken.',
	'pattern-unmatched': (nearest: string | undefined, differing: number) =>
		'These shifts are those of no pattern at the site' +
		(nearest === undefined ? '.' : `; ${shown(nearest)} comes nearest, with ${differing} shifts otherwise.`) +
		' Nothing is changed.',
	'pattern-ambiguous': (names: readonly string[]) =>
		`These shifts are too few to tell ${names.map((one) => shown(one)).join(' from ')}. Nothing is changed.`,
	'zone-unknown': (zone: string) =>
		`The time zone ${shown(zone)} is neither explained in the file nor known. It is left out.`,
	'event-broken': (why: string) => `This event cannot be read (${why}). It is left out.`,
	'too-many': (most: number) => `This event repeats more than ${most} times. It is left out.`
} as const;

export type TimesCode = keyof typeof sentences;

/** One thing that is wrong or doubtful in a list of absences and shifts. */
export interface TimesProblem {
	/** The record, or the event, counted from 1. */
	readonly row: number;
	/** The column, or the property of the event; null where all of it is meant. */
	readonly column: string | null;
	readonly code: string;
	readonly value: string;
	readonly message: string;
}

/** Makes a problem; `details` are what its sentence needs. */
export function timesProblem<Code extends TimesCode>(
	code: Code,
	place: Pick<TimesProblem, 'row' | 'column' | 'value'>,
	...details: Parameters<(typeof sentences)[Code]>
): TimesProblem {
	const sentence = sentences[code] as (...details: unknown[]) => string;
	return { ...place, value: place.value.slice(0, 200), code, message: sentence(...details) };
}
