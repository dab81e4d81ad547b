import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import access from '$lib/core/answers/access';
import { readRollout } from '$lib/core/answers/support/read-rollout';
import { AccessModel } from '$lib/core/access/model';
import type { LocalDate } from '$lib/core/calendar/local-date';
import type { LocalDateTime } from '$lib/core/calendar/local-date-time';
import type { Rollout } from '$lib/core/document/schema';
import { unwatched } from '$lib/core/kernel/work';
import { barsOf, spansWords, weekOf } from './week-of';
import { findPerson, momentOf, reachAt } from './who-at';
import { CellBook } from './cell-book';
import { type RowOfPeople, columnsOf, filteredPeople, rowsOfPeople } from './who-grid';
import { reasonOf } from './who-reason';

const on = (date: string) => date as LocalDate;
const at = (moment: string) => moment as LocalDateTime;

const parts = {
	site: { name: 'Invented site', timeZone: 'America/Chicago' },
	areas: [{ id: 'yard', outside: true }, { id: 'hall' }, { id: 'cold' }],
	doors: [
		{ id: 'gate', name: 'Gate', from: 'yard', to: 'hall' },
		{ id: 'cold-1', name: 'Cold door', from: 'hall', to: 'cold' }
	],
	doorGroups: [
		{ id: 'in', name: 'Way in', doors: ['gate'] },
		{ id: 'cold', name: 'Cold', doors: ['cold-1'] },
		{ id: 'both', doors: ['gate', 'cold-1'] },
		{ id: 'none' }
	],
	schedules: [
		{
			id: 'day',
			name: 'Days',
			week: { mon: ['07:00-19:00'], tue: ['07:00-19:00'] },
			holidays: { public: 'closed' as const }
		},
		{ id: 'night', name: 'Nights', week: { sun: ['22:00-06:00'], mon: ['22:00-06:00'] } },
		{
			id: 'always',
			week: Object.fromEntries(['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].map((day) => [day, ['00:00-24:00']]))
		}
	],
	holidays: { days: [{ date: on('2027-05-31'), name: 'Memorial Day', kind: 'public' }] },
	people: [
		{ id: '1', name: 'Ada Quill', department: 'Dock', job: 'Loader', workAreas: ['cold'] },
		{ id: '2', name: 'Ben Marsh', department: 'Dock', job: 'Lead' },
		{ id: '3', name: 'Cleo Tarn', department: 'Office', leavesOn: on('2027-03-31') },
		{ id: '4', name: 'Ada Quill' }
	],
	accessProfiles: [
		{ id: 'floor', name: 'Floor', entries: [{ doorGroup: 'in', schedule: 'day' }] },
		{ id: 'lead', name: 'Lead', entries: [{ doorGroup: 'cold', schedule: 'night' }] },
		{ id: 'free', entries: [{ doorGroup: 'in', schedule: 'always' }] }
	],
	assignments: [
		{ id: 'a-dock', who: { departments: ['Dock'] }, accessProfile: 'floor' },
		{ id: 'a-lead', who: { jobs: ['Lead'] }, accessProfile: 'lead', from: on('2027-06-01') },
		{ id: 'a-office', who: { departments: ['Office'] }, accessProfile: 'free' }
	]
};
const rollout = rolloutOf(parts);
const modelOf = (week: string, document: Rollout = rollout) =>
	new AccessModel(document, weekOf(document, week, on('2026-11-25')));

/** Every cell of some rows. */
function gridRows(model: AccessModel, rows: readonly RowOfPeople[], columns: ReturnType<typeof columnsOf>) {
	const book = new CellBook(model, columns);
	return rows.map(({ key, people }) => {
		const crowd = book.crowdOf(people);
		const cells = columns.map((_, place) => book.picture(book.cell(crowd, place).picture));
		return { key, listed: people.length, people: crowd.people, cells };
	});
}

describe('the week shown', () => {
	test('is that of the date asked for, with its holidays by column', () => {
		expect(weekOf(rollout, '2027-06-02', on('2026-11-25'))).toMatchObject({
			from: '2027-05-31',
			until: '2027-06-06',
			before: '2027-05-24',
			after: '2027-06-07',
			holidays: [{ day: 0, name: 'Memorial Day' }]
		});
	});

	test('is this week in the horizon, else the one after the last go-live, else the first', () => {
		expect(weekOf(rollout, null, on('2027-08-12')).from).toBe('2027-08-09');
		expect(weekOf(rollout, 'soon', on('2026-11-25')).from).toBe('2027-01-04');
		const live = rolloutOf({ ...parts, enrollment: { waves: [{ id: 'w', goLive: on('2027-01-20') }] } });
		expect(weekOf(live, null, on('2026-11-25')).from).toBe('2027-01-25');
	});

	test('nights are told as one stretch and drawn in two columns; a whole week in one word', () => {
		const model = modelOf('2027-06-07');
		const ben = model.findClass('2');
		const spans = ben ? model.doorSpansOf(ben, 1).filter(({ to }) => to > model.range.from) : [];
		expect(spansWords(spans.slice(1, 2), model)).toBe('Mon 22:00–06:00');
		expect(barsOf(spans.slice(1, 2), model)).toEqual([
			{ day: 0, from: 1320, to: 1440 },
			{ day: 1, from: 0, to: 360 }
		]);
		expect(spansWords([model.range], model)).toBe('all week, day and night');
	});
});

describe('the grid', () => {
	test('a cell is hatched where all may open all doors, and dashed where some may some', () => {
		const model = modelOf('2027-06-07');
		const rows = rowsOfPeople(rollout, rollout.people, 'department');
		expect(rows.map(({ name, note }) => `${name}: ${note}`)).toEqual([
			'Dock: 2 people',
			'Office: 1 person',
			'no department: 1 person'
		]);
		const [dock, office] = gridRows(model, rows, columnsOf(model, 'groups'));
		expect(dock?.cells.map(({ words }) => words)).toEqual([
			'Mon–Tue 07:00–19:00',
			'some only: Mon 00:00–06:00, 22:00–06:00; Sun 22:00–24:00',
			'some only: Mon 00:00–06:00, 07:00–19:00, 22:00–06:00; Tue 07:00–19:00; Sun 22:00–24:00',
			'not at all'
		]);
		// Left in March: nobody of the row is employed in June.
		expect(office).toMatchObject({ listed: 1, people: 0 });
		expect(office?.cells.every(({ words }) => words === 'not at all')).toBe(true);
	});

	test('people can be found by words, by text and by an assignment', () => {
		const model = modelOf('2027-06-07');
		const ids = (filter: Parameters<typeof filteredPeople>[1]) => filteredPeople(model, filter).map(({ id }) => id);
		expect(ids({ department: 'Dock', find: 'ada' })).toEqual(['1']);
		expect(ids({ department: '' })).toEqual(['4']);
		expect(ids({ assignment: 'a-lead' })).toEqual(['2']);
		expect(ids({ assignment: 'gone' })).toHaveLength(4);
	});

	test('each cell of a person holds exactly the minutes that the answer "access" gives, on the demo as well', async () => {
		const read = readRollout(readFileSync('demo-data/larkfen-cold-store.json'));
		if (!read.ok) throw new Error('the demo cannot be read');
		const demo = read.value.rollout;
		// With a clock change on its Sunday (02:00 to 03:00 is skipped).
		for (const week of ['2027-02-15', '2027-03-08', '2027-07-05']) {
			const model = modelOf(week, demo);
			const columns = columnsOf(model, 'doors');
			const people = demo.people.filter((_, place) => place % 24 === 0);
			const rows = gridRows(model, rowsOfPeople(demo, people, 'person'), columns);
			for (const row of rows) {
				const answer = await access.run(
					demo,
					{
						person: row.key,
						from: weekOf(demo, week, on('2027-01-04')).from,
						until: weekOf(demo, week, on('2027-01-04')).until
					},
					unwatched
				);
				if (!answer.ok) throw new Error(answer.faults[0]?.message);
				for (const [place, column] of columns.entries()) {
					const minutes = answer.value.spans
						.filter(({ door }) => door === column.id)
						.reduce((sum, { from, to }) => sum + (Date.parse(to) - Date.parse(from)) / 60_000, 0);
					const bars = row.cells[place]?.all ?? [];
					const skipped =
						week === '2027-03-08'
							? bars.filter(({ day, from, to }) => day === 6 && from <= 120 && to >= 180).length
							: 0;
					const drawn = bars.reduce((sum, { from, to }) => sum + to - from, 0);
					expect(drawn - 60 * skipped, `${row.key} ${column.id} ${week}`).toBe(minutes);
				}
			}
		}
	});
});

describe('the reason of a cell', () => {
	const dock = rowsOfPeople(rollout, rollout.people, 'department')[0];
	const columnNamed = (model: AccessModel, id: string) => columnsOf(model, 'groups').find((column) => column.id === id);
	const reason = (week: string, column: string, document: Rollout = rollout) => {
		const model = modelOf(week, document);
		const found = columnNamed(model, column);
		if (!dock || !found) throw new Error('no such cell');
		return reasonOf(model, dock, found);
	};

	test('follows the assignment to profile, group, schedule and hours, with the holidays of the week', () => {
		expect(reason('2027-05-31', 'in')).toMatchObject({
			people: 2,
			words: 'Tue 07:00–19:00',
			without: { count: 0 },
			open: [
				{
					assignment: 'a-dock',
					people: 2,
					profileName: 'Floor',
					entry: { groupName: 'Way in', scheduleName: 'Days', doors: ['Gate'] },
					hours: 'Tue 07:00–19:00',
					holidays: ['2027-05-31, Memorial Day (public): closed']
				}
			]
		});
	});

	test('tells where a way breaks off, and who is left out', () => {
		expect(reason('2027-05-10', 'cold')).toMatchObject({
			open: [],
			broken: [
				{ assignment: 'a-dock', state: 'not-granted' },
				{ assignment: 'a-lead', state: 'not-in-force' }
			]
		});
		expect(reason('2027-06-07', 'cold')).toMatchObject({
			without: { count: 1, names: ['Ada Quill'] },
			open: [{ assignment: 'a-lead', people: 1 }]
		});
	});

	test('without what it names, the cell is empty', () => {
		const named = reason('2027-06-07', 'in').open.map(({ assignment }) => assignment);
		const undone = rolloutOf({ ...parts, assignments: parts.assignments.filter(({ id }) => !named.includes(id)) });
		expect(reason('2027-06-07', 'in', undone).words).toBe('not at all');
	});
});

describe('a door and a moment', () => {
	test('shows the areas within reach, and the hours of the door on that date', () => {
		const [ada] = rollout.people;
		if (!ada) throw new Error('nobody');
		expect(reachAt(rollout, ada, at('2027-06-07T08:00'), 'gate')).toEqual({
			reachable: ['yard', 'hall'],
			doorBars: [{ day: 0, from: 420, to: 1140 }],
			openDoors: [{ id: 'gate', name: 'Gate', canReach: true }]
		});
		expect(reachAt(rollout, ada, at('2027-06-07T20:00'), null)).toEqual({
			reachable: ['yard'],
			doorBars: [],
			openDoors: []
		});
	});

	test('a moment that is not given is the first at which the door opens, else a morning', () => {
		const [ada, ben] = rollout.people;
		if (!ada || !ben) throw new Error('nobody');
		expect(momentOf(rollout, '2027-06-07T20:00', on('2027-05-31'), ada, 'gate')).toBe('2027-06-07T20:00');
		expect(momentOf(rollout, null, on('2027-05-31'), ada, 'gate')).toBe('2027-06-01T07:00');
		// The Monday of the first week in force is a holiday of a kind on which nights are undecided.
		expect(momentOf(rollout, 'noon', on('2027-01-04'), ben, 'cold-1')).toBe('2027-06-06T22:00');
		expect(momentOf(rollout, null, on('2027-01-04'), ada, 'cold-1')).toBe('2027-01-04T08:00');
		expect(momentOf(rollout, null, on('2027-01-04'), null, 'gate')).toBe('2027-01-04T08:00');
	});

	test('a person is found by id, by name and id, or by a name that one alone bears', () => {
		expect(findPerson(rollout, '4')?.id).toBe('4');
		expect(findPerson(rollout, 'Ada Quill (1)')?.id).toBe('1');
		expect(findPerson(rollout, 'ben marsh')?.id).toBe('2');
		expect(findPerson(rollout, 'Ada Quill')).toBeNull();
		expect(findPerson(rollout, ' ')).toBeNull();
	});
});
