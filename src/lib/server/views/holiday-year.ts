import { holidaysByDay } from '$lib/core/access/holidays';
import { dayRuleOf, readySchedule } from '$lib/core/access/schedule-days';
import { type LocalDate, partsOf } from '$lib/core/calendar/local-date';
import { statutoryHolidays } from '$lib/core/calendar/statutory-holidays';
import { monthNames } from '$lib/charts/year-strip';
import type { Rollout } from '$lib/core/document/schema';
import type { DateColumn, DateDoing } from '$lib/components/holidays/treatment';

/** One year of the horizon as the strip shows it. */
export interface HolidayYear {
	readonly year: number;
	/** Every year of which the horizon holds a date. */
	readonly years: readonly number[];
	/** The dates of the year that lie in the horizon. */
	readonly range: { readonly from: LocalDate; readonly until: LocalDate };
	/** Official public holidays of the site's country and region that are not listed; none where no country is given. */
	readonly missing: readonly { readonly date: LocalDate; readonly name: string }[];
	/** Its holidays by date; of a date listed twice the first entry counts. */
	readonly dates: readonly DateColumn[];
	/** What each schedule does on each of these, in the order of the document. */
	readonly doings: readonly (readonly DateDoing[])[];
}

/** A year of the horizon: the one asked for, else the one of today, else the first. */
export function holidayYear(rollout: Rollout, asked: string | null, today: LocalDate): HolidayYear {
	const { horizon, site, holidays, schedules } = rollout;
	const [first, last] = [Number(horizon.from.slice(0, 4)), Number(horizon.until.slice(0, 4))];
	const years = Array.from({ length: last - first + 1 }, (_, place) => first + place);
	const year = [Number(asked), Number(today.slice(0, 4))].find((one) => years.includes(one)) ?? first;
	const name = String(year).padStart(4, '0');
	const range = {
		from: (horizon.from > `${name}-01-01` ? horizon.from : `${name}-01-01`) as LocalDate,
		until: (horizon.until < `${name}-12-31` ? horizon.until : `${name}-12-31`) as LocalDate
	};
	const listed = new Set(holidays.days.map(({ date }) => date));
	const byDay = holidaysByDay(rollout);
	const days = [...byDay]
		.filter(([, { date }]) => date >= range.from && date <= range.until)
		.sort(([a], [b]) => a - b)
		.map(([day]) => day);
	return {
		year,
		years,
		range,
		missing:
			site.country === null
				? []
				: statutoryHolidays(site, range.from, range.until)
						.filter(({ date }) => !listed.has(date))
						.map(({ date, name: called }) => ({ date, name: called })),
		dates: days.flatMap((day) => {
			const holiday = byDay.get(day);
			const { month, day: ofMonth } = partsOf(day);
			if (!holiday) return [];
			const { date, kind } = holiday;
			return [{ date, kind, name: holiday.name ?? kind, label: `${ofMonth} ${monthNames[month - 1]}` }];
		}),
		doings: schedules.map((schedule) => {
			const ready = readySchedule(schedule);
			return days.map((day): DateDoing => {
				const { rule, stretches } = dayRuleOf(ready, day, byDay);
				const hours = stretches.map(({ text }) => text.replace('-', '–')).join(', ');
				switch (rule) {
					case 'week':
						return { doing: 'normal', words: hours === '' ? 'as usual: no hours' : `as usual: ${hours}` };
					case 'holiday-list':
						return hours === '' ? { doing: 'closed', words: 'closed' } : { doing: 'own', words: hours };
					case 'holiday-closed':
						return { doing: 'closed', words: 'closed' };
					case 'holiday-undecided':
						return { doing: 'undecided', words: 'not decided, so closed' };
					case 'not-valid':
						return { doing: 'not-valid', words: 'closed: the schedule is not valid then' };
				}
			});
		})
	};
}
