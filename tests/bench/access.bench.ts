import ICAL from 'ical.js';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import check from '../../src/lib/core/answers/check';
import type { Memory } from '../../src/lib/core/answers/define-answer';
import mend from '../../src/lib/core/answers/mend';
import { mends } from '../../src/lib/core/mends';
import { applyEdit } from '../../src/lib/core/edits';
import type { ReadDocument } from '../../src/lib/core/document/read';
import { readRolloutValue } from '../../src/lib/core/answers/support/read-rollout';
import { AccessModel } from '../../src/lib/core/access/model';
import { openSpansOf } from '../../src/lib/core/access/schedule-days';
import type { Rollout } from '../../src/lib/core/document/schema';
import { lengthOf } from '../../src/lib/core/calendar/spans';
import { weekdays } from '../../src/lib/core/calendar/local-date';
import { unwatched } from '../../src/lib/core/kernel/work';
import { type Bench, type Figure, medianOf, timeText } from './bench';
import { namedRollout, scaleRollout, unalikeRollout } from './scale-rollout';

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
			...wholeProcess('people alike', text),
			...wholeProcess('people unalike', JSON.stringify(unalikeRollout(size))),
			...wholeProcess('and named by every assignment', JSON.stringify(namedRollout(size))),
			{ what: `read ${(text.length / 1e6).toFixed(1)} MB`, ours: timeText(reading), beside: 'no peer' },
			{ what: 'check, in a process that runs', ours: timeText(checking), beside: 'no peer' }
		];
		return [...figures, ...(await editsOf(read.value)), await mending(rollout), await weeklyStretches(rollout)];
	}
};

/** The whole command `check --json` in a process of its own: reading, checking, writing; and the most memory that it held. */
function wholeProcess(what: string, text: string): Figure[] {
	const program = path.resolve('build/cli/main.js');
	if (!existsSync(program)) {
		return [
			{ what: `doorwright check, ${what}`, ours: 'not measured', beside: 'npm run build makes the command line' }
		];
	}
	const folder = mkdtempSync(path.join(tmpdir(), 'doorwright-bench-'));
	try {
		const file = path.join(folder, 'site.json');
		writeFileSync(file, text);
		const report = [
			'process.on("exit", () => {',
			'const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();',
			'process.stderr.write(`\\n${maxRSS} ${userCPUTime + systemCPUTime}`); });'
		].join(' ');
		const start = performance.now();
		const { stdout, stderr } = spawnSync(
			process.execPath,
			['--import', `data:text/javascript,${encodeURIComponent(report)}`, program, 'check', file, '--json'],
			{ encoding: 'utf8', maxBuffer: 1e9 }
		);
		const time = performance.now() - start;
		const [kilobytes, microseconds] = (stderr.split('\n').at(-1) ?? '').split(' ').map(Number);
		const megabytes = Math.round(((kilobytes ?? NaN) * 1024) / 1e6);
		return [
			{
				what: `doorwright check, ${what}`,
				ours: `${timeText(time)}, ${megabytes} MB`,
				beside: 'bound: 5 s, 700 MB',
				note: `${timeText((microseconds ?? NaN) / 1000)} of processor time; ${(stdout.length / 1e6).toFixed(1)} MB of JSON`
			}
		];
	} finally {
		rmSync(folder, { recursive: true });
	}
}

type Entry = Record<string, never> & { readonly entries: readonly object[]; readonly doors: readonly string[] };

/** Changes of one cell each, as the app makes them; `n` makes each of several another one. */
const edits: readonly (readonly [
	what: string,
	list: string,
	id: string,
	change: (entry: Entry, n: number) => object
])[] = [
	[
		'a holiday treatment of a schedule',
		'schedules',
		's5',
		(_, n) => ({ holidays: { public: n % 2 ? 'normal' : 'closed' } })
	],
	[
		'the same of a schedule that everybody has',
		'schedules',
		's0',
		(_, n) => ({ holidays: { public: n % 2 ? 'normal' : 'closed' } })
	],
	[
		'a stretch of a schedule',
		'schedules',
		's9',
		(entry, n) => ({ week: { ...(entry['week'] as object | undefined), mon: [`0${n}:45-09:15`] } })
	],
	[
		'a door in a group',
		'doorGroups',
		'g7',
		({ doors }, n) => ({ doors: n % 2 ? doors.slice(1) : ['d100', ...doors.filter((id) => id !== 'd100')] })
	],
	['a date of an assignment', 'assignments', 'as10', (_, n) => ({ from: `2027-03-0${n + 1}` })],
	['the department of a person', 'people', '100777', (_, n) => ({ department: `dep${n}` })],
	[
		'the schedule of an entry of a profile',
		'accessProfiles',
		'ap9',
		({ entries }, n) => ({ entries: entries.with(0, { ...entries[0], schedule: `s${20 + n}` }) })
	]
];

/** What each edit costs: making it, and checking again, beside a check from nothing. */
async function editsOf(read: ReadDocument): Promise<Figure[]> {
	const memory: Memory = new Map();
	await check.run(read.rollout, {}, unwatched, memory);
	let state = read;
	const figures: Figure[] = [];
	for (const [what, list, id, change] of edits) {
		const [editing, again, full]: [number[], number[], number[]] = [[], [], []];
		for (let n = 0; n < 5; n++) {
			const entries = state.document[list as 'people'] ?? [];
			const entry = entries.find((one) => one.id === id) as unknown as Entry;
			const start = performance.now();
			const after = applyEdit(state, 'put-entry', {
				collection: list,
				at: id,
				entry: { ...entry, ...change(entry, n) }
			});
			if (!after.ok) throw new Error(after.faults.map((one) => one.message).join('\n'));
			state = after.value;
			const edited = performance.now();
			await check.run(state.rollout, {}, unwatched, memory);
			const checked = performance.now();
			await check.run(state.rollout, {}, unwatched);
			editing.push(edited - start);
			again.push(checked - edited);
			full.push(performance.now() - checked);
		}
		const [edit, recheck, whole] = [editing, again, full].map((times) => times.sort((a, b) => a - b)[2] as number);
		figures.push({
			what: `check after ${what}`,
			ours: timeText(recheck as number),
			beside: `${timeText(whole as number)} from nothing; bound: 100 ms`,
			note: `the edit itself ${timeText(edit as number)}`
		});
	}
	return figures;
}

/** The mends of the first finding about a shift, as the app asks for them: with what the check before remembers. */
async function mending(rollout: Rollout): Promise<Figure> {
	const memory: Memory = new Map();
	const checked = await check.run(rollout, {}, unwatched, memory);
	const finding = checked.ok ? checked.value.findings.find(({ code }) => mends.has(code)) : undefined;
	const what = 'mends of one finding';
	if (!finding) return { what, ours: 'not measured', beside: 'no finding that has any' };
	const params = mend.params.parse({ code: finding.code, ...finding.subject });
	const start = performance.now();
	const found = await mend.run(rollout, params, unwatched, memory);
	const time = performance.now() - start;
	const tried = found.ok ? found.value.tried : 0;
	return {
		what,
		ours: timeText(time),
		beside: `${timeText(time / Math.max(1, tried))} for each of ${tried} changes tried`,
		note: 'each change made, and the whole document checked again'
	};
}

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
