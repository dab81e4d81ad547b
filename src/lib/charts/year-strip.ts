import { type LocalDate, dateOf, epochDayOf, partsOf, weekdayOf, weekdays } from '$lib/core/calendar/local-date';

/** A holiday as the strip shows it. */
export interface StripHoliday {
	readonly date: string;
	readonly name: string;
	readonly kind: string;
}

export interface StripDate {
	readonly date: LocalDate;
	/** Day of the month. */
	readonly day: number;
	/** Column of the strip, 0 to 36: the first of a month stands under its weekday. */
	readonly column: number;
	readonly isWeekend: boolean;
	readonly holiday: StripHoliday | undefined;
	/** The date stands more than once in the list; the first entry counts. */
	readonly isRepeated: boolean;
	/** Behind the date up to which the list of holidays is complete. */
	readonly isUncovered: boolean;
}

export interface StripMonth {
	/** `2027-01` */
	readonly key: string;
	/** `Jan 2027` */
	readonly name: string;
	readonly dates: readonly StripDate[];
}

/** The shapes that tell kinds of holiday apart, besides their letters. */
export const kindShapes = ['square', 'circle', 'diamond', 'triangle', 'hexagon'] as const;

export interface KindMark {
	readonly kind: string;
	/** One letter or digit, different for every kind as long as there are enough. */
	readonly letter: string;
	readonly shape: (typeof kindShapes)[number];
}

export const monthNames = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** Most columns that a month can take: it begins on a Sunday and has 31 days. */
export const stripColumns = 37;

/** The months of a horizon, each with its dates in it; weekdays stand below each other. */
export function yearStrip(
	horizon: { readonly from: LocalDate; readonly until: LocalDate },
	holidays: readonly StripHoliday[],
	coveredUntil: LocalDate | null
): StripMonth[] {
	const byDate = new Map<string, StripHoliday[]>();
	for (const holiday of holidays) byDate.set(holiday.date, [...(byDate.get(holiday.date) ?? []), holiday]);
	const months: { key: string; name: string; dates: StripDate[] }[] = [];
	const last = epochDayOf(horizon.until);
	for (let number = epochDayOf(horizon.from) as number; number <= last; number++) {
		const epochDay = number as typeof last;
		const { year, month, day } = partsOf(epochDay);
		const date = dateOf(epochDay);
		const key = date.slice(0, 7);
		if (months.at(-1)?.key !== key) months.push({ key, name: `${monthNames[month - 1]} ${year}`, dates: [] });
		const weekday = weekdays.indexOf(weekdayOf(epochDay));
		const first = (((weekday - (day - 1)) % 7) + 7) % 7;
		const listed = byDate.get(date) ?? [];
		months.at(-1)?.dates.push({
			date,
			day,
			column: first + day - 1,
			isWeekend: weekday > 4,
			holiday: listed[0],
			isRepeated: listed.length > 1,
			isUncovered: coveredUntil === null || date > coveredUntil
		});
	}
	return months;
}

/**
 * Letter and shape of each kind, in the order given: the first letter of its name that is free, else a digit.
 * @example kindMarks(['public', 'shutdown', 'plant']) // P, S, L
 */
export function kindMarks(kinds: readonly string[]): KindMark[] {
	const taken = new Set<string>();
	return kinds.map((kind, place) => {
		const letters = [...kind.toUpperCase()].filter((letter) => /\p{L}|\d/u.test(letter));
		const letter = [...letters, ...'123456789'].find((one) => !taken.has(one)) ?? '?';
		taken.add(letter);
		return { kind, letter, shape: kindShapes[place % kindShapes.length] as KindMark['shape'] };
	});
}

/**
 * The kinds that a list of holidays and some schedules name, in the order in which they first stand there.
 * @param first kinds that come before all others
 */
export function kindsOf(
	holidays: readonly StripHoliday[],
	treated: readonly (readonly string[])[],
	first: readonly string[] = []
): string[] {
	return [...new Set([...first, ...holidays.map((holiday) => holiday.kind), ...treated.flat()])];
}
