import type { AccessModel } from '../../access/model';
import { type ReadySchedule, dayRuleOf, readySchedule } from '../../access/schedule-days';
import { type EpochDay, type Weekday, dateOf, weekdayOf, weekdays } from '../../calendar/local-date';
import type { SpanSet } from '../../calendar/spans';
import { stretch } from '../../calendar/stretch';
import type { Schedule, Treatment } from '../../document/schema';
import { remembered } from '../../kernel/remembered';
import { type DayPiece, dayPieces } from './day-pieces';
import { type Minutes, stretchText, withMinutes } from './stretch-lists';

/** What changes in a schedule; what is left out stays. */
export interface ScheduleChange {
	readonly from?: string | null;
	readonly until?: string;
	readonly week: Readonly<Partial<Record<Weekday, readonly string[]>>>;
	readonly holidays: ReadonlyMap<string, Treatment>;
}

/**
 * How a kind of holiday on which a schedule is not open is opened: by exactly the minutes that are missing, or by treating
 * such days as ordinary ones.
 */
export type HolidayStyle = 'exact' | 'as-usual';

/**
 * The change that lets a schedule be open throughout the spans: on ordinary days by widening the weekday, on holidays by the
 * style, and on dates outside of its validity by moving its limits.
 */
export function changeCovering(
	schedule: Schedule,
	spans: SpanSet,
	model: AccessModel,
	style: HolidayStyle
): ScheduleChange {
	const limited = readySchedule(schedule);
	const ready: ReadySchedule = { ...limited, from: -Infinity, until: Infinity };
	const byWeekday = new Map<Weekday, Minutes[]>();
	const byKind = new Map<string, Minutes[]>();
	const asUsual = new Set<string>();
	const pieces = dayPieces(model, spans);
	const ruleOf = ({ day }: DayPiece) => dayRuleOf(ready, day, model.holidays);
	const whole = style === 'exact' ? nightsJoined(pieces, (piece) => ruleOf(piece).rule === 'week') : pieces;
	for (const piece of whole) {
		const rule = ruleOf(piece);
		if (rule.rule !== 'week' && 'kind' in rule && style === 'exact') {
			remembered(byKind, rule.kind, () => []).push(piece);
			continue;
		}
		if ('kind' in rule) asUsual.add(rule.kind);
		if (!isInWeek(ready, piece)) remembered(byWeekday, weekdayOf(piece.day), () => []).push(piece);
	}
	const holidays = new Map<string, Treatment>([...asUsual].map((kind) => [kind, 'normal'] as const));
	for (const [kind, minutes] of byKind) {
		const present = schedule.holidays[kind];
		holidays.set(kind, withMinutes(Array.isArray(present) ? present : [], minutes));
	}
	return { ...limitsFor(schedule, pieces), week: weekWith(schedule, byWeekday), holidays };
}

/**
 * Pieces in which the evening of a holiday and the morning after it, where that is ordinary, are one night: it belongs to the
 * holiday's list, so that no other morning of that weekday is opened.
 */
function nightsJoined(pieces: readonly DayPiece[], isOrdinary: (piece: DayPiece) => boolean): DayPiece[] {
	const joined: DayPiece[] = [];
	for (const piece of pieces) {
		const last = joined.at(-1);
		const isMorningAfter = last?.to === 1440 && last.day + 1 === piece.day && piece.from === 0;
		const fits = last !== undefined && piece.to <= last.from;
		if (last && isMorningAfter && fits && !isOrdinary(last) && isOrdinary(piece)) {
			joined[joined.length - 1] = { ...last, to: 1440 + piece.to };
		} else joined.push(piece);
	}
	return joined;
}

/** True when the week's own stretches, also one that runs on from the weekday before, hold a piece. */
function isInWeek({ week }: ReadySchedule, { day, from, to }: DayPiece): boolean {
	const own = week[weekdayOf(day)];
	const before = week[weekdayOf((day - 1) as EpochDay)].map((one) => ({ from: one.from - 1440, to: one.to - 1440 }));
	return [...own, ...before].some((one) => one.from <= from && to <= one.to);
}

function weekWith(schedule: Schedule, added: ReadonlyMap<Weekday, readonly Minutes[]>): ScheduleChange['week'] {
	const week = new Map<Weekday, readonly string[]>();
	for (const [day, minutes] of added) week.set(day, withMinutes(schedule.week[day], minutes));
	joinNights(schedule, week);
	cutNights(schedule, week);
	return Object.fromEntries(week);
}

/** Writes what ends at midnight and goes on at the next date's as one night, where both were added. */
function joinNights(schedule: Schedule, week: Map<Weekday, readonly string[]>): void {
	weekdays.forEach((day, place) => {
		const next = weekdays[(place + 1) % 7] as Weekday;
		const [evening, morning] = [week.get(day), week.get(next)];
		const last = evening?.find((text) => stretch(text).to === 1440 && !schedule.week[day].includes(text));
		const first = morning?.find((text) => stretch(text).from === 0 && !schedule.week[next].includes(text));
		if (!evening || !morning || last === undefined || first === undefined) return;
		const night = { from: stretch(last).from, to: 1440 + stretch(first).to };
		if (night.to - night.from > 1440 || stretch(first).to >= 1440) return;
		week.set(
			day,
			evening.map((text) => (text === last ? stretchText(night) : text))
		);
		week.set(
			next,
			morning.filter((text) => text !== first)
		);
	});
}

/** Ends a night at midnight where the next date's own stretch now begins there: two that share minutes would be a finding. */
function cutNights(schedule: Schedule, week: Map<Weekday, readonly string[]>): void {
	weekdays.forEach((day, place) => {
		const next = weekdays[(place + 1) % 7] as Weekday;
		const nextList = (week.get(next) ?? schedule.week[next]).map(stretch);
		const added = week.has(next) || week.has(day);
		if (!added || !nextList.some(({ from }) => from === 0)) return;
		const list = week.get(day) ?? schedule.week[day];
		const cut = list.map((text) => {
			const { from, to } = stretch(text);
			const isHeld = nextList.some((one) => one.from === 0 && one.to >= to - 1440);
			return to > 1440 && isHeld ? stretchText({ from, to: 1440 }) : text;
		});
		if (cut.some((text, at) => text !== list[at])) week.set(day, cut);
	});
}

function limitsFor(schedule: Schedule, pieces: readonly DayPiece[]): Pick<ScheduleChange, 'from' | 'until'> {
	const days = pieces.map(({ day }) => day);
	if (days.length === 0) return {};
	const first = dateOf(days.reduce((a, b) => (a < b ? a : b)));
	const last = dateOf(days.reduce((a, b) => (a > b ? a : b)));
	return {
		...(schedule.from !== null && first < schedule.from ? { from: first } : {}),
		...(schedule.until !== null && last > schedule.until ? { until: last } : {})
	};
}
