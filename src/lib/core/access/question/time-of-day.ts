import { clockText } from '../../calendar/stretch';
import type { Part, Spoken } from './words';

/** A time of day in a question. */
export interface TimeHeard extends Part {
	/** Minutes after midnight, 0 to 1440. */
	readonly minute: number;
	/** Other times that it may mean, as words that mean one only. */
	readonly others: readonly string[];
}

export type TimeFound = TimeHeard | { readonly fault: string } | null;

const half = String.raw`\s*(a\.?m\.?|p\.?m\.?)(?![a-z])`;
const numbers = ['twelve', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven'];
const hourWord = String.raw`(\d{1,2}|${numbers.join('|')})`;
const isForm = {
	clock: new RegExp(String.raw`(?<![\d:./-])(\d{1,2})[:h](\d{2})(?::\d{2})?(?![\d:])(?:${half})?`),
	dotted: new RegExp(String.raw`(?<![\d:./-])(\d{1,2})\.(\d{2})${half}`),
	hour: new RegExp(String.raw`(?<![\d:./-])(\d{1,2})${half}`),
	past: new RegExp(String.raw`\b(half|quarter) (past|to) ${hourWord}\b(?:${half})?`),
	named: /\b(?:12 )?(noon|midday|midnight)\b/,
	oclock: new RegExp(String.raw`\b${hourWord} o'?clock\b(?:${half})?`),
	bare: /\bat (\d{4}|\d{1,2})(?![\d:./-]|(?:st|nd|rd|th)\b)/
};

/**
 * Reads and takes one time of day: `02:30`, `2:30 am`, `2 pm`, `2.30pm`, `noon`, `midnight`, `half past two`, `at 5`, `at 0230`. A
 * time on a 12-hour clock with neither am nor pm is read as written, and the afternoon offered.
 */
export function takeTime(spoken: Spoken): TimeFound {
	const full = spoken.take(isForm.clock) ?? spoken.take(isForm.dotted);
	if (full) {
		const [, hour = '', minutes = '', half] = full.match;
		return timeOf(full, spoken.typed(full), Number(hour), Number(minutes), half, hour.startsWith('0'));
	}
	const named = spoken.take(isForm.named);
	if (named?.match[1] === 'midnight') return { ...partOf(named), minute: 0, others: ['24:00'] };
	if (named) return { ...partOf(named), minute: 720, others: [] };
	const past = spoken.take(isForm.past);
	if (past) {
		const [, part, side, hour = '', half] = past.match;
		const minutes = (part === 'half' ? 30 : 15) * (side === 'to' ? -1 : 1);
		return timeOf(past, spoken.typed(past), hourOf(hour), minutes, half, false);
	}
	const whole = spoken.take(isForm.hour) ?? spoken.take(isForm.oclock);
	if (whole) return timeOf(whole, spoken.typed(whole), hourOf(whole.match[1] ?? ''), 0, whole.match[2], false);
	const bare = spoken.take(isForm.bare);
	if (!bare) return null;
	const digits = bare.match[1] ?? '';
	if (digits.length === 4)
		return timeOf(bare, digits, Number(digits.slice(0, 2)), Number(digits.slice(2)), undefined, true);
	return timeOf(bare, digits, Number(digits), 0, undefined, digits.startsWith('0'));
}

function partOf({ from, to }: Part): Part {
	return { from, to };
}

function hourOf(word: string): number {
	const place = numbers.indexOf(word);
	return place === 0 ? 12 : place > 0 ? place : Number(word);
}

function timeOf(
	part: Part,
	typed: string,
	hour: number,
	minutes: number,
	half: string | undefined,
	isTwentyFour: boolean
): TimeFound {
	const wrong = { fault: `${typed} is no time of day. Write it like 02:30 or 2:30 am.` };
	if (minutes > 59) return wrong;
	if (half !== undefined) {
		if (hour < 1 || hour > 12) return wrong;
		const inDay = (hour % 12) * 60 + minutes + (half.startsWith('p') ? 720 : 0);
		return { ...partOf(part), minute: (inDay + 1440) % 1440, others: [] };
	}
	const minute = hour * 60 + minutes;
	if (minute < 0 || minute > 1440) return wrong;
	const isEither = !isTwentyFour && hour >= 1 && hour <= 12 && minute < 720;
	const isNoonOrNight = !isTwentyFour && minutes < 0 && hour === 12;
	return {
		...partOf(part),
		minute,
		others: isEither ? [clockText(minute + 720)] : isNoonOrNight ? [clockText((minute + 720) % 1440)] : []
	};
}
