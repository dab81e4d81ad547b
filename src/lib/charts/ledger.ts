import { type LocalDate, dateOf, epochDayOf, partsOf, plusDays } from '$lib/core/calendar/local-date';

/** How a template stands, gravest first: the order of the rows. */
export const ledgerStates = ['overdue', 'due', 'held', 'kept'] as const;
export type LedgerState = (typeof ledgerStates)[number] | 'erased';

export interface LedgerEntry {
	readonly id: string;
	readonly name: string;
	readonly state: LedgerState;
	/** Null where no rule gives a date. */
	readonly eraseBy: LocalDate | null;
}

export interface LedgerBin {
	readonly from: LocalDate;
	/** The last date in it. */
	readonly until: LocalDate;
}

export interface LedgerRow<E extends LedgerEntry> {
	readonly state: (typeof ledgerStates)[number];
	readonly count: number;
	/** By bin, each in the order of dates. */
	readonly cells: readonly (readonly E[])[];
}

export interface Ledger<E extends LedgerEntry> {
	readonly bins: readonly LedgerBin[];
	/** Days of a bin; 0 for calendar months. */
	readonly binDays: number;
	readonly rows: readonly LedgerRow<E>[];
	/** The bin that holds the day of the ledger. */
	readonly today: number;
	/** Entries with no date: kept until some rule gives one. */
	readonly undated: readonly E[];
	readonly erased: number;
}

const mostBins = 60;

/**
 * Sorts erase-by dates into bins along a time line that holds the day of the ledger: days where that is fine enough to be
 * drawn, else weeks from Monday, else calendar months. Erased entries are counted only.
 */
export function ledger<E extends LedgerEntry>(entries: readonly E[], on: LocalDate): Ledger<E> {
	const open = entries.filter((entry) => entry.state !== 'erased');
	const dated = open.filter((entry): entry is E & { eraseBy: LocalDate } => entry.eraseBy !== null);
	const dates = [...dated.map((entry) => entry.eraseBy), on].sort();
	const [first, last] = [dates[0] as LocalDate, dates.at(-1) as LocalDate];
	const { bins, binDays } = binsOver(first, last);
	const binOf = (date: LocalDate) => bins.findIndex((bin) => date <= bin.until);
	return {
		bins,
		binDays,
		rows: ledgerStates.map((state) => {
			const own = dated.filter((entry) => entry.state === state).sort((a, b) => (a.eraseBy < b.eraseBy ? -1 : 1));
			const cells: E[][] = bins.map(() => []);
			for (const entry of own) cells[binOf(entry.eraseBy)]?.push(entry);
			return { state, count: own.length, cells };
		}),
		today: binOf(on),
		undated: open.filter((entry) => entry.eraseBy === null),
		erased: entries.length - open.length
	};
}

function binsOver(first: LocalDate, last: LocalDate): { bins: LedgerBin[]; binDays: number } {
	const [from, until] = [epochDayOf(first), epochDayOf(last)];
	if (until - from < mostBins) return { bins: dayBins(from, until, 1), binDays: 1 };
	// 1970-01-05, day 4, was a Monday.
	const monday = plusDays(from, -((((from - 4) % 7) + 7) % 7));
	if (until - monday < 7 * mostBins) return { bins: dayBins(monday, until, 7), binDays: 7 };
	const bins: LedgerBin[] = [];
	for (let start = `${first.slice(0, 7)}-01` as LocalDate; start <= last;) {
		const next = firstOfNextMonth(start);
		bins.push({ from: start, until: dateOf(plusDays(epochDayOf(next), -1)) });
		start = next;
	}
	return { bins, binDays: 0 };
}

function dayBins(from: number, until: number, days: number): LedgerBin[] {
	const bins: LedgerBin[] = [];
	for (let day = from as ReturnType<typeof epochDayOf>; day <= until; day = plusDays(day, days)) {
		bins.push({ from: dateOf(day), until: dateOf(plusDays(day, days - 1)) });
	}
	return bins;
}

function firstOfNextMonth(date: LocalDate): LocalDate {
	const { year, month } = partsOf(epochDayOf(date));
	const [nextYear, nextMonth] = month === 12 ? [year + 1, 1] : [year, month + 1];
	return `${String(nextYear).padStart(4, '0')}-${String(nextMonth).padStart(2, '0')}-01` as LocalDate;
}
