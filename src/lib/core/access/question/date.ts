import { dateWords, monthNames, weekdayNames } from '../../calendar/date-words';
import {
	type LocalDate,
	type Weekday,
	dateOf,
	daysInMonth,
	epochDayFrom,
	epochDayOf,
	isLocalDate,
	plusDays,
	weekdayOf,
	weekdays
} from '../../calendar/local-date';
import type { Part, Spoken } from './words';

/** The dates that a question is about, and the one on which it is asked. */
export interface Dates {
	readonly from: LocalDate;
	readonly until: LocalDate;
	readonly today: LocalDate;
}

/** A date in a question. */
export interface DateHeard extends Part {
	/** Null where it may be either of `others`, and nothing says which. */
	readonly date: LocalDate | null;
	readonly others: readonly LocalDate[];
	/** What was taken for granted, as a sentence. */
	readonly assumed: string | null;
}

export type DateFound = DateHeard | { readonly fault: string } | null;

const month =
	'jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?';
const ordinal = String.raw`(\d{1,2})(?:st|nd|rd|th)?`;
const year = String.raw`(?:,? (\d{4})(?![:\d]))?`;
const dayForm = 'mon(?:day)?|tue(?:s|sday)?|wed(?:nesday)?|thu(?:r|rs|rsday)?|fri(?:day)?|sat(?:urday)?|sun(?:day)?';

const forms = {
	iso: /(?<![\d-])(\d{4})-(\d{1,2})-(\d{1,2})(?!\d)(?:t(?=\d))?/,
	dayMonth: new RegExp(String.raw`(?<![\d:./-])${ordinal}(?: of)? (${month})\b\.?${year}`),
	monthDay: new RegExp(String.raw`\b(${month})\.? ${ordinal}(?![\d:./-])${year}`),
	slashed: /(?<![\d:/])(\d{1,2})\/(\d{1,2})(?:\/(\d{4}|\d{2}))?(?![\d/:])/,
	dotted: /(?<![\d:.])(\d{1,2})\. ?(\d{1,2})\.(?: ?(\d{4}))?(?!\d)/,
	relative: /\b(day after tomorrow|tomorrow|today|tonight|yesterday)\b/,
	inDays: /\bin (\d{1,3}) days?\b/,
	weekday: new RegExp(String.raw`\b(?:(next|this|last) )?(${dayForm})\b`)
};

/**
 * Reads and takes one date: ISO, `25 December`, `Dec 25, 2027`, `12/25` where the order is certain, weekdays, `tomorrow`. Without a
 * year the one in the horizon is taken: the next from today on, else the first; the other years are offered.
 */
export function takeDate(spoken: Spoken, dates: Dates): DateFound {
	const iso = spoken.take(forms.iso);
	if (iso) {
		const [, y = '', m = '', d = ''] = iso.match;
		const text = `${y}-${m.padStart(2, '0')}-${d.padStart(2, '0')}`;
		return isLocalDate(text) ? heard(iso, text) : { fault: `There is no date ${spoken.typed(iso)}.` };
	}
	const words = spoken.take(forms.dayMonth);
	const american = words ? null : spoken.take(forms.monthDay);
	const named = words ?? american;
	if (named) {
		const [day, name, y] = words ? [1, 2, 3].map((i) => named.match[i]) : [2, 1, 3].map((i) => named.match[i]);
		const place = monthNames.findIndex((one) => one.toLowerCase().startsWith((name ?? '').slice(0, 3))) + 1;
		const weekday = takeWeekday(spoken);
		return dayOfYear(named, dates, place, Number(day), y === undefined ? null : Number(y), weekday);
	}
	const numbers = spoken.take(forms.slashed) ?? spoken.take(forms.dotted);
	if (numbers) return eitherOrder(numbers, spoken.typed(numbers), dates, numbers.match);
	return relative(spoken, dates);
}

function heard(
	part: Part,
	date: LocalDate,
	others: readonly LocalDate[] = [],
	assumed: string | null = null
): DateHeard {
	return { from: part.from, to: part.to, date, others, assumed };
}

function takeWeekday(spoken: Spoken): Weekday | null {
	const found = spoken.take(forms.weekday);
	return found ? weekdayNamed(found.match[2] ?? '') : null;
}

function weekdayNamed(name: string): Weekday | null {
	return weekdays.find((day) => name.startsWith(day)) ?? null;
}

/** A day and month, with or without its year; a weekday beside it decides between years, or contradicts. */
function dayOfYear(
	part: Part,
	dates: Dates,
	monthNumber: number,
	day: number,
	inYear: number | null,
	weekday: Weekday | null
): DateFound {
	const name = monthNames[monthNumber - 1];
	const most = name === undefined ? 0 : daysInMonth(inYear ?? 2000, monthNumber);
	if (name === undefined || day < 1 || day > most) {
		const what = `${day} ${name ?? `of month ${monthNumber}`}${inYear === null ? '' : ` ${inYear}`}`;
		return {
			fault:
				name === undefined ? `There is no month ${monthNumber}.` : `There is no ${what}: that month has ${most} days.`
		};
	}
	const inYearOf = (one: number) => dateIn(one, monthNumber, day);
	if (inYear !== null) {
		const date = inYearOf(inYear);
		if (date === null) return { fault: `There is no ${day} ${name} ${inYear}.` };
		if (weekday !== null && weekdayOf(epochDayOf(date)) !== weekday) {
			return { fault: `${dateWords(date)} is no ${weekdayNames[weekday]}.` };
		}
		return heard(part, date);
	}
	const first = Number(dates.from.slice(0, 4));
	const span = Number(dates.until.slice(0, 4)) - first;
	const all = Array.from({ length: span + 9 }, (_, place) => inYearOf(first + place)).flatMap((date) => date ?? []);
	const inside = all.filter((date) => date >= dates.from && date <= dates.until);
	const fits = (date: LocalDate) => weekday === null || weekdayOf(epochDayOf(date)) === weekday;
	const near = inside.length > 0 ? inside : all.slice(0, 1);
	const fitting = near.filter(fits);
	const [earliest] = fitting;
	if (earliest === undefined) {
		return {
			fault: `${near.map(dateWords).join(' and ')} is no ${weekday === null ? 'such day' : weekdayNames[weekday]}.`
		};
	}
	const chosen = fitting.find((date) => date >= dates.today) ?? earliest;
	const others = fitting.filter((date) => date !== chosen);
	const assumed =
		inside.length === 0
			? `No year is named, and the horizon has no ${day} ${name}: ${dateWords(chosen)} is taken.`
			: `No year is named: ${dateWords(chosen)} is taken, in the horizon.`;
	return heard(part, chosen, others, assumed);
}

function dateIn(inYear: number, monthNumber: number, day: number): LocalDate | null {
	if (inYear < 1 || inYear > 9999 || day > daysInMonth(inYear, monthNumber)) return null;
	return dateOf(epochDayFrom(inYear, monthNumber, day));
}

/** `12/25`: which is the month is certain where only one can be; else it is asked. */
function eitherOrder(part: Part, typed: string, dates: Dates, match: RegExpExecArray): DateFound {
	const [one, other] = [Number(match[1]), Number(match[2])];
	const written = match[3];
	const inYear = written === undefined ? null : Number(written) + (written.length === 2 ? 2000 : 0);
	const read = (monthNumber: number, day: number) => dayOfYear(part, dates, monthNumber, day, inYear, null);
	if (one > 12 && other > 12)
		return { fault: `${typed} is no date: neither number is a month. Write it like 25 December.` };
	if (one > 12 || one === other) return read(other, one);
	if (other > 12) return read(one, other);
	const both = [read(one, other), read(other, one)].flatMap((found) =>
		found !== null && 'date' in found && found.date !== null ? [found.date] : []
	);
	return { from: part.from, to: part.to, date: null, others: both, assumed: null };
}

/** `tomorrow`, `in 3 days`, `Friday`: counted from today. */
function relative(spoken: Spoken, dates: Dates): DateFound {
	const today = epochDayOf(dates.today);
	const word = spoken.take(forms.relative);
	if (word) {
		const days =
			{ today: 0, tonight: 0, tomorrow: 1, yesterday: -1, 'day after tomorrow': 2 }[word.match[1] ?? ''] ?? 0;
		return heard(word, dateOf(plusDays(today, days)));
	}
	const inDays = spoken.take(forms.inDays);
	if (inDays) return heard(inDays, dateOf(plusDays(today, Number(inDays.match[1]))));
	const found = spoken.take(forms.weekday);
	const weekday = found && weekdayNamed(found.match[2] ?? '');
	if (!found || !weekday) return null;
	const ahead = (weekdays.indexOf(weekday) - weekdays.indexOf(weekdayOf(today)) + 7) % 7;
	const which = found.match[1];
	const days = which === 'last' ? (ahead === 0 ? -7 : ahead - 7) : which === 'next' && ahead === 0 ? 7 : ahead;
	const date = dateOf(plusDays(today, days));
	const later = dateOf(plusDays(today, days + 7));
	const assumed = `${weekdayNames[weekday]} is counted from today, ${dateWords(dates.today)}: ${dateWords(date)}.`;
	return heard(found, date, which === 'last' ? [] : [later], assumed);
}
