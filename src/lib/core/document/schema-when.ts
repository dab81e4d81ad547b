import { z } from 'zod';
import { date, entry, exactly, id, listOf, maybe, orElse, stretchText, word, words } from './fields';

/** When: schedules by the week, and the holidays that override them. */

const stretches = z.array(stretchText, { error: 'a list of stretches like ["07:00-19:00"]' });
const day = orElse(stretches, () => [] as string[]);

export const week = entry({ mon: day, tue: day, wed: day, thu: day, fri: day, sat: day, sun: day });

const emptyWeek = () => ({
	mon: [] as string[],
	tue: [] as string[],
	wed: [] as string[],
	thu: [] as string[],
	fri: [] as string[],
	sat: [] as string[],
	sun: [] as string[]
});

/** What a schedule does on a kind of holiday: its own list replaces the day. */
export const treatment = z.union([exactly('normal'), exactly('closed'), stretches], {
	error: '"normal", "closed", or a list of stretches like ["08:00-12:00"]'
});

export const schedule = entry({
	id,
	name: maybe(words),
	from: maybe(date),
	until: maybe(date),
	week: orElse(week, emptyWeek),
	holidays: orElse(
		z.record(word, treatment.nullish(), { error: 'an object from kinds of holiday to what the schedule does' }),
		(): Record<string, Treatment | null | undefined> => ({})
	).describe('By kind of holiday: normal, closed, or a list of stretches that replaces the day')
});

export const holiday = entry({ date, name: maybe(words), kind: word });

export const holidays = entry({
	coveredUntil: maybe(date).describe('The list is complete up to this date'),
	days: listOf(holiday)
});

export const when = {
	schedules: listOf(schedule),
	holidays: orElse(holidays, () => ({ coveredUntil: null, days: [] as z.output<typeof holiday>[] }))
};

export type Treatment = z.output<typeof treatment>;
export type Schedule = z.output<typeof schedule>;
export type Holiday = z.output<typeof holiday>;
