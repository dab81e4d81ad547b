import ICAL from 'ical.js';
import check from '../../src/lib/core/answers/check';
import { readRolloutValue } from '../../src/lib/core/answers/support/read-rollout';
import { AccessModel } from '../../src/lib/core/access/model';
import { openSpansOf } from '../../src/lib/core/access/schedule-days';
import type { Rollout } from '../../src/lib/core/document/schema';
import { lengthOf } from '../../src/lib/core/calendar/spans';
import { weekdays } from '../../src/lib/core/calendar/local-date';
import { unwatched } from '../../src/lib/core/kernel/work';
import { type Bench, type Figure, medianOf, timeText } from './bench';
import { scaleRollout } from './scale-rollout';

const size = { people: 20_000, doors: 400, areas: 60, schedules: 80, assignments: 300 };

/** Reading and checking a large site, and its weekly stretches expanded beside a general recurrence library. */
const bench: Bench = {
	name: 'access',
	title: `Access: ${Object.entries(size)
		.map(([what, count]) => `${count} ${what}`)
		.join(', ')}, two years`,
	async run() {
		const text = JSON.stringify(scaleRollout(size));
		const read = readRolloutValue(JSON.parse(text));
		if (!read.ok)
			throw new Error(
				read.faults
					.slice(0, 3)
					.map((one) => one.message)
					.join('\n')
			);
		const { rollout } = read.value;
		const reading = await medianOf(3, () => readRolloutValue(JSON.parse(text)));
		const checking = await medianOf(3, () => check.run(rollout, {}, unwatched));
		const figures: Figure[] = [
			{ what: `read ${(text.length / 1e6).toFixed(1)} MB`, ours: timeText(reading), beside: 'no peer' },
			{ what: 'check', ours: timeText(checking), beside: 'bound: 5 s for the whole command' }
		];
		return [...figures, await weeklyStretches(rollout)];
	}
};

/** Ordinary weeks only: holidays are what a recurrence rule cannot say. Wall-clock minutes are compared, not instants. */
async function weeklyStretches(rollout: Rollout): Promise<Figure> {
	const model = new AccessModel(rollout);
	const minutesOfOurs = () =>
		rollout.schedules.reduce((sum, { id }) => {
			const schedule = model.schedules.get(id);
			if (!schedule) return sum;
			return sum + lengthOf(openSpansOf(schedule, model.from, model.until, new Map(), model.zone)) / 60;
		}, 0);
	let occurrences = 0;
	const expandAll = () => {
		occurrences = 0;
		for (const schedule of rollout.schedules) {
			weekdays.forEach((day, place) => {
				for (const stretch of schedule.week[day]) occurrences += expand(place, stretch);
			});
		}
	};
	const ours = await medianOf(3, minutesOfOurs);
	const theirs = await medianOf(1, expandAll);
	return {
		what: 'weekly stretches of 80 schedules',
		ours: timeText(ours),
		beside: `${timeText(theirs)} with ical.js`,
		note: `${occurrences} occurrences; ours also joins them and reads clock changes`
	};
}

/** How often a stretch of a weekday occurs in the two years, by the rule iterator of ical.js. */
function expand(weekday: number, stretch: string): number {
	const start = ICAL.Time.fromDateTimeString(
		`2027-01-${String(4 + weekday).padStart(2, '0')}T${stretch.slice(0, 5)}:00`
	);
	const rule = ICAL.Recur.fromString('FREQ=WEEKLY;UNTIL=20281231T235959');
	const iterator = rule.iterator(start);
	let count = 0;
	for (iterator.next(); !iterator.completed; iterator.next()) count++;
	return count;
}

export default bench;
