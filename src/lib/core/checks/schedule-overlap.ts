import { type Stretch, clockText, stretch } from '../calendar/stretch';
import { type Weekday, weekdays } from '../calendar/local-date';
import { listed, nameOf } from '../document/names';
import type { Schedule } from '../document/schema';
import { type Case, defineCheck } from './define-check';

const dayNames: Readonly<Record<string, string>> = {
	mon: 'Monday',
	tue: 'Tuesday',
	wed: 'Wednesday',
	thu: 'Thursday',
	fri: 'Friday',
	sat: 'Saturday',
	sun: 'Sunday'
};

export default defineCheck({
	code: 'schedule-overlap',
	severity: 'error',
	title: 'Stretches overlap',
	why: 'Two stretches that share a minute are nearly always a slip of the pen; many controllers refuse such a day.',
	mend: 'Join the stretches into one, or end the first where the second begins.',
	source:
		'Rollout document, findings; ONVIF Access Rules Service Specification: several schedules for one access point are a union',
	mendAt: ({ schedule }) => `schedules/${encodeURIComponent(String(schedule))}`,
	find: ({ rollout, kept }) => {
		const cases = kept.renew<ReadonlyMap<Schedule, readonly Case[]>>(
			'schedule-overlap',
			(before) =>
				new Map(
					rollout.schedules.map((schedule) => [
						schedule,
						before?.get(schedule) ?? [...ofWeek(schedule), ...ofHolidayLists(schedule)]
					])
				)
		);
		return [...cases.values()].flat();
	},
	// The name of a schedule comes with the schedule, and one with another name is another object.
	tellsFrom: () => [],
	message: ({ subject, facts }, rollout) => {
		const day = dayNames[String(subject['day'])] ?? `the holidays of kind ${String(subject['day'])}`;
		return `Schedule ${nameOf(rollout.schedules, subject['schedule'])} has stretches that overlap on ${day}: ${String(facts?.['stretches'])} share ${String(facts?.['shared'])}.`;
	}
});

/** A stretch, or the rest of one, as minutes of the day on which it is looked at. */
interface Piece {
	readonly from: number;
	readonly to: number;
	readonly text: string;
}

function ofWeek(schedule: Schedule): Case[] {
	return weekdays.flatMap((day, place) => {
		const before = weekdays[(place + 6) % 7] as Weekday;
		const own = schedule.week[day].map(stretch).map((one) => ({ ...one, to: Math.min(one.to, 1440) }));
		const carried = schedule.week[before]
			.map(stretch)
			.filter((one) => one.to > 1440)
			.map((one) => ({ from: 0, to: one.to - 1440, text: `${one.text} of ${dayNames[before] ?? before}` }));
		return caseOf(schedule, day, [...carried, ...own]);
	});
}

function ofHolidayLists(schedule: Schedule): Case[] {
	return Object.entries(schedule.holidays).flatMap(([kind, treatment]) =>
		Array.isArray(treatment)
			? caseOf(
					schedule,
					kind,
					treatment.map((text): Stretch => stretch(text))
				)
			: []
	);
}

function caseOf(schedule: Schedule, day: string, pieces: readonly Piece[]): Case[] {
	for (const [place, one] of pieces.entries()) {
		for (const other of pieces.slice(place + 1)) {
			const from = Math.max(one.from, other.from);
			const to = Math.min(one.to, other.to);
			if (from >= to) continue;
			const facts = {
				stretches: listed([one.text, other.text]),
				shared: `${clockText(from)}-${clockText(to)}`
			};
			return [{ subject: { schedule: schedule.id, day }, count: overlaps(pieces), facts }];
		}
	}
	return [];
}

/** How many pairs of pieces share a minute. */
function overlaps(pieces: readonly Piece[]): number {
	let count = 0;
	pieces.forEach((one, place) => {
		for (const other of pieces.slice(place + 1)) if (one.from < other.to && other.from < one.to) count++;
	});
	return count;
}
