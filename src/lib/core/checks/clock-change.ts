import { type DayRule, dayRuleOf } from '../access/schedule-days';
import { type EpochDay, dateOf, epochDayOf, plusDays } from '../calendar/local-date';
import { listed, nameOf } from '../document/names';
import { type CheckInput, defineCheck } from './define-check';
import { assignedSchedules } from './support/assigned';

export default defineCheck({
	code: 'clock-change',
	severity: 'note',
	title: 'Clock change in a stretch',
	why: 'A stretch starts or ends at a time that the clock skips or shows twice, so it is not as long as it looks on that day.',
	mend: 'Nothing need be done where the reading suits: a skipped time is read with the offset before the change, a repeated one means the first.',
	source: 'RFC 5545, section 3.3.5',
	mendAt: ({ schedule }) => `schedules/${encodeURIComponent(String(schedule))}`,
	dependsOn: ({ site, horizon, holidays, schedules, accessProfiles, assignments }) => [
		JSON.stringify([site, horizon]),
		holidays.days,
		schedules,
		accessProfiles,
		assignments
	],
	find: (input) =>
		assignedSchedules(input.rollout).flatMap((schedule) => {
			const dates = affectedDates(input, schedule.id);
			return dates.length === 0 ? [] : [{ subject: { schedule: schedule.id }, dates }];
		}),
	message: ({ subject, dates = [] }, rollout) =>
		`Schedule ${nameOf(rollout.schedules, subject['schedule'])} has a stretch that starts or ends in a time that the clock change skips or repeats on ${listed([...new Set(dates)].sort())}.`
});

function affectedDates({ rollout, access }: CheckInput, scheduleId: string): string[] {
	const schedule = access.schedules.get(scheduleId);
	if (!schedule) return [];
	const ruleOf = (day: EpochDay): DayRule => dayRuleOf(schedule, day, access.holidays);
	const dates: string[] = [];
	const note = (day: EpochDay, minute: number) => {
		const date = dateOf(plusDays(day, Math.floor(minute / 1440)));
		if (date < rollout.horizon.from || date > rollout.horizon.until) return;
		if (access.zone.fateOf({ day, minute }) !== 'once') dates.push(date);
	};
	for (const day of daysNearChanges({ rollout, access })) {
		if (!access.zone.hasDate(day)) continue;
		const runsOn = ruleOf(plusDays(day, 1)).rule === 'week';
		for (const { from, to } of ruleOf(day).stretches) {
			note(day, from);
			// A stretch that the next date cuts ends at midnight, not at the time that is written.
			if (to <= 1440 || runsOn) note(day, to);
		}
	}
	return dates;
}

/** Dates whose stretches may start or end near a clock change; all others need not be looked at. */
function daysNearChanges({ rollout, access }: Pick<CheckInput, 'rollout' | 'access'>): EpochDay[] {
	const days = new Set<EpochDay>();
	const [first, last] = [epochDayOf(rollout.horizon.from) - 2, epochDayOf(rollout.horizon.until) + 1];
	for (const { at } of access.zone.clockChanges) {
		const day = access.zone.dayAt(at);
		for (let near = day - 3; near <= day + 2; near++) if (near >= first && near <= last) days.add(near as EpochDay);
	}
	return [...days].sort((a, b) => a - b);
}
