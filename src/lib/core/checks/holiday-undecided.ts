import { dateOf } from '../calendar/local-date';
import { counted, nameOf } from '../document/names';
import { assignedSchedules } from './support/assigned';
import { type Case, defineCheck } from './define-check';

export default defineCheck({
	code: 'holiday-undecided',
	severity: 'error',
	title: 'Holiday not decided',
	why: 'A schedule that says nothing of a kind of holiday stays closed on it, without anybody having decided so.',
	mend: 'Say for this schedule what it does on such days: as on an ordinary day, closed, or its own stretches.',
	source: 'Rollout document, meaning of schedules; common practice, no source',
	mendAt: ({ schedule }) => `schedules/${encodeURIComponent(String(schedule))}`,
	dependsOn: ({ horizon, holidays, schedules, accessProfiles, assignments }) => [
		horizon.from,
		horizon.until,
		holidays.days,
		schedules,
		accessProfiles,
		assignments
	],
	find: ({ rollout, access }) => {
		const cases: Case[] = [];
		const { from, until } = rollout.horizon;
		for (const schedule of assignedSchedules(rollout)) {
			const datesByKind = new Map<string, string[]>();
			for (const [day, { kind }] of access.holidays) {
				const date = dateOf(day);
				const first = schedule.from !== null && schedule.from > from ? schedule.from : from;
				const last = schedule.until !== null && schedule.until < until ? schedule.until : until;
				const treatment = Object.hasOwn(schedule.holidays, kind) ? schedule.holidays[kind] : null;
				if (date < first || date > last || (treatment !== null && treatment !== undefined)) continue;
				datesByKind.set(kind, [...(datesByKind.get(kind) ?? []), date]);
			}
			for (const [kind, dates] of datesByKind) cases.push({ subject: { schedule: schedule.id, kind }, dates });
		}
		return cases;
	},
	message: ({ subject, dates = [] }, rollout) =>
		`Schedule ${nameOf(rollout.schedules, subject['schedule'])} says nothing of ${String(subject['kind'])} holidays, and stays closed on ${counted(dates.length, 'date')} of that kind, first on ${[...dates].sort()[0] ?? ''}.`
});
