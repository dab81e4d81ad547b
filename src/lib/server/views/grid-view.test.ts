import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import { readRollout } from '$lib/core/answers/support/read-rollout';
import type { LocalDate } from '$lib/core/calendar/local-date';
import { clip } from '$lib/core/calendar/spans';
import type { Rollout } from '$lib/core/document/schema';
import { gridPageOf } from './grid-page';
import { gridQueryOf } from './grid-query';
import { gridViewOf } from './grid-views';

const today = '2026-11-25' as LocalDate;
const week = (days: readonly string[], at: string) => Object.fromEntries(days.map((day) => [day, [at]]));
const parts = {
	site: { name: 'Invented site', timeZone: 'Europe/London' },
	areas: [{ id: 'yard', outside: true }, { id: 'hall' }, { id: 'cold' }],
	doors: [
		{ id: 'gate', name: 'Gate', from: 'yard', to: 'hall' },
		{ id: 'cold-1', name: 'Cold door', from: 'hall', to: 'cold' }
	],
	doorGroups: [
		{ id: 'in', name: 'Way in', doors: ['gate'] },
		{ id: 'cold', name: 'Cold', doors: ['cold-1'] }
	],
	schedules: [
		{ id: 'day', week: week(['mon', 'tue', 'wed'], '07:00-19:00'), holidays: { public: 'closed' as const } },
		{ id: 'long', week: week(['mon'], '06:00-20:00'), holidays: { public: 'normal' as const } }
	],
	holidays: { days: [{ date: '2027-03-29' as LocalDate, name: 'Easter Monday', kind: 'public' }] },
	people: [
		{ id: '1', name: 'Ada Quill', department: 'Dock', job: 'Loader' },
		{ id: '2', name: 'Ben Marsh', department: 'Dock', job: 'Lead' },
		{ id: '10', name: 'Cleo Tarn', department: 'Office' },
		{ id: '9', name: 'Dov Hale' }
	],
	accessProfiles: [
		{ id: 'floor', entries: [{ doorGroup: 'in', schedule: 'day' }] },
		{ id: 'lead', entries: [{ doorGroup: 'cold', schedule: 'long' }] }
	],
	assignments: [
		{ id: 'a-dock', who: { departments: ['Dock'] }, accessProfile: 'floor' },
		{ id: 'a-lead', who: { jobs: ['Lead'] }, accessProfile: 'lead' }
	]
};
const rollout = rolloutOf(parts);

function viewOf(query: string, document: Rollout = rollout, before: Rollout | null = null) {
	return gridViewOf(document, gridQueryOf(new URLSearchParams(query), document, today), before);
}

/** The grid as text: the words of each cell by row; null where a cell is left out. */
function wordsOf(query: string, document: Rollout = rollout, before: Rollout | null = null) {
	const view = viewOf(query, document, before);
	const window = view.window('r', { from: 0, to: 99 }, { from: 0, to: 99 });
	return {
		columns: window.columns.map(({ id }) => id),
		rows: window.rows.map(({ key }, line) => [
			key,
			...(window.cells[line] ?? []).map((cell) => cell && `${cell.can}: ${window.pictures[cell.picture]?.words}`)
		])
	};
}

describe('the grid', () => {
	test('counts who of a row may open any door of a column', () => {
		expect(wordsOf('week=2027-03-01')).toEqual({
			columns: ['in', 'cold'],
			rows: [
				['Dock', '2: Mon–Wed 07:00–19:00', '1: some only: Mon 06:00–20:00'],
				['Office', '0: not at all', '0: not at all'],
				['', '0: not at all', '0: not at all']
			]
		});
	});

	test('shows a week with its holidays, or as if it had none', () => {
		const [dated] = wordsOf('week=2027-03-29').rows;
		const [ordinary] = wordsOf('week=2027-03-29&days=ordinary').rows;
		expect(dated).toEqual(['Dock', '2: Tue–Wed 07:00–19:00', '1: some only: Mon 06:00–20:00']);
		expect(ordinary).toEqual(['Dock', '2: Mon–Wed 07:00–19:00', '1: some only: Mon 06:00–20:00']);
	});

	test('leaves cells out that have, or lack, access, with rows and columns in which none is left', () => {
		expect(wordsOf('rows=person&week=2027-03-01&cells=with').rows).toEqual([
			['1', '1: Mon–Wed 07:00–19:00', null],
			['2', '1: Mon–Wed 07:00–19:00', '1: Mon 06:00–20:00']
		]);
		expect(wordsOf('rows=department&week=2027-03-01&cells=without').rows).toEqual([
			['Dock', null, '1: some only: Mon 06:00–20:00'],
			['Office', '0: not at all', '0: not at all'],
			['', '0: not at all', '0: not at all']
		]);
		expect(wordsOf('rows=person&week=2027-03-01&cells=with&department=Office')).toEqual({ columns: [], rows: [] });
	});

	test('is narrowed by door group, area, and text; and by who lacks a word', () => {
		expect(wordsOf('columns=doors&group=cold').columns).toEqual(['cold-1']);
		expect(wordsOf('columns=groups&group=cold').columns).toEqual(['cold']);
		expect(wordsOf('columns=doors&area=yard').columns).toEqual(['gate']);
		expect(wordsOf('columns=doors&area=hall').columns).toEqual(['gate', 'cold-1']);
		expect(wordsOf('columns=doors&doorfind=COLD').columns).toEqual(['cold-1']);
		expect(wordsOf('rows=person&lacks=department').rows.map(([key]) => key)).toEqual(['9']);
		// An empty field of a plain form says nothing.
		expect(wordsOf('rows=person&department=').rows).toHaveLength(4);
	});

	test('is sorted by name, people and doors', () => {
		const keys = (query: string) => wordsOf(query).rows.map(([key]) => key);
		expect(keys('rows=person&sort=-name')).toEqual(['9', '10', '2', '1']);
		expect(keys('rows=department&sort=people')).toEqual(['Office', '', 'Dock']);
		expect(keys('rows=person&sort=-doors&week=2027-03-01')).toEqual(['2', '1', '10', '9']);
		expect(keys('rows=person&sort=shoe')).toEqual(['1', '2', '10', '9']);
	});

	test('tells the cells that differ from another state of the rollout', () => {
		const before = rolloutOf({ ...parts, assignments: parts.assignments.slice(0, 1) });
		const changed = wordsOf('rows=person&week=2027-03-01&cells=changed', rollout, before);
		expect(changed).toEqual({ columns: ['cold'], rows: [['2', '1: Mon 06:00–20:00']] });
		expect(wordsOf('rows=person&week=2027-03-01&cells=changed', rollout, rolloutOf(parts)).rows).toEqual([]);
	});

	test('is worked out once for one state of the rollout', () => {
		expect(viewOf('rows=person')).toBe(viewOf('rows=person'));
		expect(viewOf('rows=person').model).toBe(viewOf('rows=job').model);
		expect(viewOf('rows=person', rolloutOf(parts))).not.toBe(viewOf('rows=person'));
	});
});

describe('on the demo', () => {
	const read = readRollout(readFileSync('demo-data/larkfen-cold-store.json'));
	if (!read.ok) throw new Error('the demo cannot be read');
	const demo = read.value.rollout;

	test.each(['department', 'job', 'wave', 'person'])('a window of rows by %s is a part of the whole grid', (kind) => {
		const view = viewOf(`rows=${kind}&columns=doors`, demo);
		const whole = view.window('r', { from: 0, to: 999 }, { from: 0, to: 999 });
		const part = view.window('r', { from: 3, to: 9 }, { from: 5, to: 11 });
		expect(part.rows).toEqual(whole.rows.slice(3, 9));
		expect(part.columns).toEqual(whole.columns.slice(5, 11));
		expect(part.cells).toEqual(whole.cells.slice(3, 9).map((cells) => cells.slice(5, 11)));
	});

	test('who is counted in a cell may open a door of it at some time of the week, person by person', () => {
		const view = viewOf('rows=department&columns=groups&week=2027-03-08', demo);
		const { model } = view;
		const window = view.window('r', { from: 0, to: 999 }, { from: 0, to: 999 });
		view.rows.forEach(({ people }, line) => {
			view.columns.forEach(({ places }, column) => {
				const can = people.filter(({ id }) => {
					const one = model.findClass(id);
					return (
						one &&
						places.some((door) => clip(model.doorSpansOf(one, door), model.range.from, model.range.to).length > 0)
					);
				});
				expect(window.cells[line]?.[column]?.can).toBe(can.length);
			});
		});
	});

	test('a page of the sheet holds the window that its address names, and the reason of the cell that it names', () => {
		const at = new URLSearchParams(`rows=person&columns=doors&page=3&row=00106&column=${demo.doors[1]?.id}`);
		const { grid, cell, reason } = gridPageOf({ rollout: demo, revision: 'r' }, at, today);
		expect(grid.first.top).toBe(2 * grid.perPage);
		expect(grid.page).toBe(3);
		expect(cell).toEqual({ row: demo.people.findIndex(({ id }) => id === '00106'), column: 1 });
		expect(reason?.column).toBe(demo.doors[1]?.name);
		const beyond = gridPageOf({ rollout: demo, revision: 'r' }, new URLSearchParams('page=99&across=soon'), today);
		expect([beyond.grid.page, beyond.grid.across]).toEqual([1, 1]);
	});
});
