import { type Week, readDay } from '$lib/charts/week';
import type { FullWeek } from '$lib/charts/week-moves';
import { type Weekday, weekdays } from '$lib/core/calendar/local-date';

type DayTexts = Record<Weekday, string>;

/**
 * A week while it is edited. What is typed is the truth: the picture is read from it, and what is done in the picture is
 * written back into it. Text that cannot be read stays where it was typed.
 */
export class WeekEditor {
	texts: DayTexts = $state(emptyTexts());
	readonly #read = $derived(byDay((day) => readDay(this.texts[day])));
	/** The stretches that can be read. */
	readonly week: FullWeek = $derived(byDay((day) => this.#read[day].stretches));

	/** Starts from a week, or for single days from what was typed before. */
	constructor(week: Week, typed: Partial<DayTexts> = {}) {
		this.texts = byDay((day) => typed[day] ?? (week[day] ?? []).join(', '));
	}

	/** Takes over what was done in the picture. */
	apply(week: FullWeek): void {
		for (const day of weekdays) {
			if (week[day] === this.week[day]) continue;
			this.texts[day] = [...week[day], ...this.#read[day].unread].join(', ');
		}
	}

	/** What of a day cannot be read, as a sentence; none when all can. */
	faultOf(day: Weekday): string | undefined {
		const { unread } = this.#read[day];
		if (unread.length === 0) return undefined;
		return `${unread.map((one) => `“${one}”`).join(', ')}: write a stretch like 07:00-19:00`;
	}
}

function byDay<T>(make: (day: Weekday) => T): Record<Weekday, T> {
	return Object.fromEntries(weekdays.map((day) => [day, make(day)])) as Record<Weekday, T>;
}

function emptyTexts(): DayTexts {
	return byDay(() => '');
}
