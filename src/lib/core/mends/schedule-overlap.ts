import { type Weekday, weekdays } from '../calendar/local-date';
import { stretch } from '../calendar/stretch';
import { nameOf } from '../document/names';
import type { Rollout, Schedule } from '../document/schema';
import { type Candidate, defineMend } from './define-mend';
import { scheduleEdits } from './support/edit-calls';
import { type Minutes, joinedList, stretchText, trimmedList } from './support/stretch-lists';
import { changeWords } from './support/words';

export default defineMend({
	code: 'schedule-overlap',
	asks: ['schedule', 'day'],
	propose({ rollout, subject }) {
		const schedule = rollout.schedules.find(({ id }) => id === subject['schedule']);
		const day = subject['day'];
		if (!schedule || day === undefined) return { candidates: [], needed: [] };
		// A kind of holiday may bear the name of a weekday; the finding does not say which is meant, so both are looked at.
		const ofWeek = (weekdays as readonly string[]).includes(day) ? inWeek(rollout, schedule, day as Weekday) : [];
		return { candidates: [...ofWeek, ...inHolidayList(rollout, schedule, day)], needed: [] };
	}
});

type Lists = Readonly<Partial<Record<Weekday, readonly string[]>>>;

function inHolidayList(rollout: Rollout, schedule: Schedule, kind: string): Candidate[] {
	const list = Object.hasOwn(schedule.holidays, kind) ? schedule.holidays[kind] : null;
	if (!Array.isArray(list)) return [];
	return [joinedList(list), trimmedList(list)].map((stretches, place) => {
		const change = { week: {}, holidays: new Map([[kind, stretches]]) };
		return {
			way: place === 0 ? 'join-stretches' : 'trim-stretches',
			does: `Let schedule ${nameOf(rollout.schedules, schedule.id)} be ${changeWords(change)}`,
			edits: scheduleEdits(schedule.id, change)
		};
	});
}

/** The day's own stretches, and those of the day before that run on into it, without a minute in common. */
function inWeek(rollout: Rollout, schedule: Schedule, day: Weekday): Candidate[] {
	const before = weekdays[(weekdays.indexOf(day) + 6) % 7] as Weekday;
	const { [day]: own, [before]: evening } = schedule.week;
	const candidate = (way: string, lists: Lists): Candidate => {
		const week = Object.fromEntries(
			Object.entries(lists).filter(([name, list]) => list.join() !== schedule.week[name as Weekday].join())
		);
		const change = { week, holidays: new Map<string, never>() };
		return {
			way,
			does: `Let schedule ${nameOf(rollout.schedules, schedule.id)} be ${changeWords(change)}`,
			edits: scheduleEdits(schedule.id, change)
		};
	};
	return [joinedList(own), trimmedList(own)].flatMap((list, place) => {
		const way = place === 0 ? 'join-stretches' : 'trim-stretches';
		const carried = evening.map(stretch).filter(({ to }) => to > 1440);
		const night = Math.max(0, ...carried.map(({ to }) => to - 1440));
		return [
			candidate(way, { [day]: list }),
			candidate('begin-later', { [day]: list.flatMap((text) => beginningAt(text, night)) }),
			candidate('end-night-earlier', { [day]: list, [before]: evening.map((text) => endingBefore(text, list)) }),
			candidate('join-night', joinedNight(before, evening, day, list))
		].filter(({ edits }) => edits.length > 0);
	});
}

/** A stretch without its first minutes, as far as the night before goes on; nothing where nothing is left. */
function beginningAt(text: string, night: number): string[] {
	const { from, to } = stretch(text);
	if (from >= night) return [text];
	return to > night ? [stretchText({ from: night, to })] : [];
}

/** A night that ends where the next date's first stretch that it would meet begins. */
function endingBefore(text: string, next: readonly string[]): string {
	const { from, to } = stretch(text);
	const met = next.map(stretch).filter((one) => one.from + 1440 < to);
	if (to <= 1440 || met.length === 0) return text;
	return stretchText({ from, to: 1440 + Math.min(...met.map((one) => one.from)) });
}

/** The night goes on to the end of the stretches that it meets, which then are no longer the next date's. */
function joinedNight(before: Weekday, evening: readonly string[], day: Weekday, list: readonly string[]): Lists {
	const nights: Minutes[] = evening.map(stretch);
	const longest = nights.reduce<Minutes | null>((a, b) => (b.to > 1440 && (!a || b.to > a.to) ? b : a), null);
	if (!longest) return {};
	let end = longest.to;
	const left = list.filter((text) => {
		const { from, to } = stretch(text);
		if (from + 1440 > end || to > 1440) return true;
		end = Math.max(end, to + 1440);
		return false;
	});
	if (end - longest.from > 1440) return {};
	const night = stretchText({ from: longest.from, to: end });
	return { [before]: nights.map((one) => (one === longest ? night : stretchText(one))), [day]: left };
}
