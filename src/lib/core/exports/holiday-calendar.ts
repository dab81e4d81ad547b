import { holidaysByDay } from '../access/holidays';
import { epochDayOf, plusDays } from '../calendar/local-date';
import type { Instant } from '../calendar/zone';
import { counted } from '../document/names';
import type { Holiday } from '../document/schema';
import { defineExport } from './define-export';
import { calendarFile, component, dateValue, instantValue, textValue, uidOf } from './support/ical';

export default defineExport({
	name: 'holiday-calendar',
	title: 'Calendar of the holidays',
	summary:
		'An iCalendar file (RFC 5545) with an event of the whole day for each holiday, its kind as the category. A date that is listed twice is told by its first entry, as everywhere.',
	files({ rollout, madeAt }) {
		const days = [...holidaysByDay(rollout)].sort(([a], [b]) => a - b).map(([, holiday]) => holiday);
		if (days.length === 0) return [];
		const { site, holidays } = rollout;
		const about =
			holidays.coveredUntil === null
				? 'It is not said until when the list is complete.'
				: `Complete until ${holidays.coveredUntil}.`;
		return [
			{
				name: 'holidays.ics',
				type: 'text/calendar',
				about: counted(days.length, 'holiday'),
				content: () =>
					calendarFile(
						`Holidays, ${site.name}`,
						about,
						days.map((holiday) => eventOf(holiday, site.name, madeAt))
					)
			}
		];
	}
});

/**
 * A date without a time: it lasts until the next date, which is the end that is given.
 * @source RFC 5545, section 3.6.1
 */
function eventOf({ date, name, kind }: Holiday, site: string, madeAt: number): string {
	const day = epochDayOf(date);
	return component('VEVENT', [
		['UID', uidOf(site, 'holiday', date)],
		['DTSTAMP', instantValue(Math.floor(madeAt / 1000) as Instant)],
		['DTSTART;VALUE=DATE', dateValue(day)],
		['DTEND;VALUE=DATE', dateValue(plusDays(day, 1))],
		['SUMMARY', textValue(name ?? kind)],
		['CATEGORIES', textValue(kind)],
		['TRANSP', 'TRANSPARENT']
	]);
}
