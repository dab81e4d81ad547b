import { personDayOf } from '$lib/core/access/person-day';
import { dateOf, epochDayOf, partsOf, weekdayOf } from '$lib/core/calendar/local-date';
import { type LocalDateTime, wallTimeOf } from '$lib/core/calendar/local-date-time';
import type { Span } from '$lib/core/calendar/spans';
import type { Instant } from '$lib/core/calendar/zone';
import { type DayClock, clockWords, secondOf } from '$lib/charts/day-clock';
import { shortDay } from '$lib/charts/week';
import { monthNames } from '$lib/charts/year-strip';
import type { Person, Rollout } from '$lib/core/document/schema';
import type { DayReach } from '$lib/components/building/day-reach';

/** What a person can reach on the date of a moment; `isSecond`: of two moments of the same clock time the later one. */
export function dayReachOf(rollout: Rollout, person: Person, at: LocalDateTime, isSecond: boolean): DayReach {
	const { day, minute } = wallTimeOf(at);
	const date = dateOf(day);
	const { range, areas, changes, shifts, model } = personDayOf(rollout, person, date);
	const { zone } = model;
	const [before, after] = [range.from - 86400, range.to + 86400];
	const clock: DayClock = {
		date,
		start: range.from,
		length: range.to - range.from,
		offsets: [
			{ from: -86400, offset: zone.offsetAt(before as Instant) },
			...zone.clockChanges
				.filter((change) => change.at > before && change.at < after)
				.map((change) => ({ from: change.at - range.from, offset: change.after }))
		]
	};
	const shifted = ({ from, to }: Span): Span => ({ from: from - range.from, to: to - range.from });
	const words = (instant: number) => clockWords({ ...clock, length: Infinity }, instant - range.from);
	const holiday = model.holidays.get(day);
	const { year, month, day: dayOfMonth } = partsOf(day);
	return {
		person: { id: person.id, name: person.name ?? person.id, workAreas: person.workAreas },
		clock,
		dayWords: [
			`${shortDay(weekdayOf(epochDayOf(date)))} ${dayOfMonth} ${monthNames[month - 1]} ${year}`,
			...(holiday ? [`${holiday.name ?? holiday.kind} (${holiday.kind})`] : [])
		].join(', '),
		at: secondOf(clock, minute, isSecond),
		areas: areas.map(({ area, spans }) => ({ id: area, spans: spans.map(shifted) })),
		changes: changes.map((change) => change - range.from),
		shifts: shifts.map(({ shift, needed, isChecked, missing }) => {
			const early = rollout.site.arriveEarlyMinutes * 60;
			return {
				...shifted(needed),
				words: `${words(shift.from)}–${words(shift.to)}${early > 0 ? `, on site from ${words(shift.from - early)}` : ''}`,
				unchecked: isChecked ? null : 'before go-live or outside of the horizon, so not checked',
				missing: missing.map(({ area, spans }) => ({ area, spans: spans.map(shifted) }))
			};
		})
	};
}
