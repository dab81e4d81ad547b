import { type LocalDate, epochDayOf, plusDays } from '../calendar/local-date';
import type { Instant } from '../calendar/zone';
import { counted } from '../document/names';
import { groupBy } from '../kernel/group-by';
import { byCodeUnits } from '../kernel/compare';
import { type TemplateRetention, retentionOn } from '../privacy/retention';
import { daysToActOn, lastWorkingDayAtOrBefore } from '../privacy/working-days';
import { defineExport } from './define-export';
import { calendarFile, component, dateValue, instantValue, textValue, uidOf } from './support/ical';

/** Days before an erase-by date on which calendars remind. */
const remindDays = [30, 14, 7] as const;

const caution = 'Not legal advice: counsel confirms each rule and date.';

export default defineExport({
	name: 'erase-by-calendar',
	title: 'Calendar of the erase-by dates',
	summary:
		'An iCalendar file (RFC 5545) with an event of the whole day for each date by which templates must be erased, and reminders 30, 14 and 7 days before. People are told by their ids, without names. Templates under a hold are left out while it lasts.',
	files({ rollout, today, madeAt }) {
		const lines = retentionOn(rollout, today).templates.filter(
			({ state, eraseBy }) => eraseBy !== null && state !== 'erased' && state !== 'held'
		);
		if (lines.length === 0) return [];
		const byDate = groupBy(lines, ({ eraseBy }) => eraseBy as LocalDate);
		const canAct = daysToActOn(rollout.holidays.days);
		const dates = [...byDate].sort(([a], [b]) => byCodeUnits(a, b));
		return [
			{
				name: 'erase-by.ics',
				type: 'text/calendar',
				about: `${counted(lines.length, 'template')} on ${counted(dates.length, 'date')}`,
				content: () =>
					calendarFile(
						`Erase-by dates, ${rollout.site.name}`,
						`As known on ${today}. ${caution}`,
						dates.map(([date, templates]) =>
							eventOf(date, templates, {
								site: rollout.site.name,
								actBy: lastWorkingDayAtOrBefore(date, canAct),
								today,
								madeAt
							})
						)
					)
			}
		];
	}
});

interface About {
	readonly site: string;
	readonly actBy: LocalDate;
	readonly today: LocalDate;
	readonly madeAt: number;
}

/**
 * A date without a time, with an alarm for each reminder that still lies ahead.
 * @source RFC 5545, sections 3.6.1 and 3.6.6: a display alarm has an action, a description and a trigger before the start
 */
function eventOf(date: LocalDate, templates: readonly TemplateRetention[], about: About): string {
	const day = epochDayOf(date);
	const what = `Erase ${counted(templates.length, 'template')}`;
	const overdue =
		date < about.today ? `Overdue: the date was ${date}.` : `Last working day before or on it: ${about.actBy}.`;
	const people = templates.map(({ person, rule, left }) => `${person}: ${rule ?? ''}, still on ${left.join(', ')}`);
	const daysAhead = day - epochDayOf(about.today);
	return component(
		'VEVENT',
		[
			['UID', uidOf(about.site, 'erase-by', date)],
			['DTSTAMP', instantValue(Math.floor(about.madeAt / 1000) as Instant)],
			['DTSTART;VALUE=DATE', dateValue(day)],
			['DTEND;VALUE=DATE', dateValue(plusDays(day, 1))],
			['SUMMARY', textValue(date < about.today ? `${what} (overdue)` : what)],
			['DESCRIPTION', textValue([overdue, ...people, caution].join('\n'))],
			['TRANSP', 'TRANSPARENT']
		],
		remindDays
			.filter((days) => days <= daysAhead)
			.map((days) =>
				component('VALARM', [
					['ACTION', 'DISPLAY'],
					['DESCRIPTION', textValue(`${what} by ${date}`)],
					['TRIGGER', `-P${days}D`]
				])
			)
	);
}
