import { type EpochDay, type LocalDate, dateOf, epochDayOf, plusDays } from '../../calendar/local-date';
import { type LocalDateTime, wallTimeOf } from '../../calendar/local-date-time';
import { clockText, readStretch } from '../../calendar/stretch';

interface Opening {
	readonly date: LocalDate;
	readonly at: string;
}

/**
 * Open stretches of a station without the time from one moment (inclusive) until another (exclusive), by the clock on the wall:
 * what lies before and after it stays, as stretches of their own; untouched stretches stay the same objects.
 */
export function withoutOutage<O extends Opening>(open: readonly O[], from: LocalDateTime, until: LocalDateTime): O[] {
	const [begin, end] = [wallTimeOf(from), wallTimeOf(until)];
	return open.flatMap((opening): O[] => {
		const stretch = readStretch(opening.at);
		if (!stretch) return [opening];
		const day = epochDayOf(opening.date);
		const first = (begin.day - day) * 1440 + begin.minute;
		const last = (end.day - day) * 1440 + end.minute;
		if (first >= last || last <= stretch.from || stretch.to <= first) return [opening];
		return [
			...(stretch.from < first ? [{ ...opening, ...piece(day, stretch.from, first) }] : []),
			...(last < stretch.to ? [{ ...opening, ...piece(day, last, stretch.to) }] : [])
		];
	});
}

/** A stretch from minutes after a date's midnight; one that begins beyond it belongs to the date after. */
function piece(day: EpochDay, from: number, to: number): Opening {
	const days = Math.floor(from / 1440);
	const shift = days * 1440;
	return { date: dateOf(plusDays(day, days)), at: `${clockText(from - shift)}-${clockText(to - shift)}` };
}
