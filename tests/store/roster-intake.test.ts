import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { LocalDate } from '../../src/lib/core/calendar/local-date';
import { conflictKey } from '../../src/lib/core/roster/origins';
import { previewOf } from '../../src/lib/server/jobs/roster-readings';
import {
	type OpenRollout,
	editRollout,
	eraseRollout,
	deleteRollout,
	getRollout,
	importDocument,
	undo
} from '../../src/lib/server/rollouts';
import { type RosterDraft, keepRoster } from '../../src/lib/server/roster-drafts';
import { chosenRoster, rememberColumns, sayOfRoster, takeRosterOver } from '../../src/lib/server/roster-intake';
import { rosterMemory } from '../../src/lib/server/roster-memory';
import { originsEntered, originsOfPerson } from '../../src/lib/server/roster-origins';
import { store } from '../../src/lib/server/store/current';
import { useDataFolder } from '../support/data-folder';
import { refusalOf, valueOf } from '../support/outcomes';
import { bytesOf, lines } from '../support/read-roster';
import { smallSite } from '../support/small-site';

const today = '2027-01-04' as LocalDate;
let data: ReturnType<typeof useDataFolder>;
let id: string;
beforeEach(() => {
	data = useDataFolder();
	id = valueOf(importDocument(JSON.stringify(smallSite()), 'Nora')).id;
});
afterEach(() => data.end());

const open = (): OpenRollout => getRollout(id) as OpenRollout;
const person = (one: string) => open().rollout.people.find((known) => known.id === one);
const header = 'Number,Name,Department,Job';
const chosen = (...rows: string[]): RosterDraft => chosenRoster(open(), 'week.csv', bytesOf(lines(header, ...rows)));

async function preview(draft: RosterDraft) {
	const read = await previewOf(open(), draft, today);
	if (!read.ok) throw new Error(read.faults[0]?.message);
	return read.value;
}

async function takeOver(draft: RosterDraft, leavesOn?: string) {
	return takeRosterOver(open(), draft, leavesOn as LocalDate | undefined, 'Omar');
}

/** Changes a field by hand, as the sheet of a person does. */
function enter(one: string, fields: Readonly<Record<string, unknown>>): void {
	const before = open().document.people?.find((known) => known.id === one);
	valueOf(editRollout(id, 'put-entry', { collection: 'people', at: one, entry: { ...before, ...fields } }, 'Nora'));
}

const [ada, ben, cleo] = ['1001,Ada Quill,Packing,Picker', '1002,Ben Marsh,Office,', '1003,Cleo Tarn,Office,'];

describe('where a value comes from', () => {
	test('is known field by field, through changes, renaming and taking back', async () => {
		valueOf(await takeOver(chosen(ada, ben, cleo)));
		expect(originsOfPerson(id, '1001')).toMatchObject([{ field: 'job', origin: { by: 'roster', who: 'Omar' } }]);
		enter('1001', { job: 'Driver', language: 'de' });
		valueOf(editRollout(id, 'rename-entry', { collection: 'people', at: '1001', to: 'A1' }, 'Nora'));
		const entered = originsEntered(id).fields.map(({ person: one, field, before }) => [one, field, before]);
		expect(entered).toEqual([
			['A1', 'job', 'Picker'],
			['A1', 'language', undefined]
		]);
		valueOf(undo(id, 'Nora'));
		valueOf(undo(id, 'Nora'));
		expect(originsEntered(id).fields).toEqual([]);
		expect(originsOfPerson(id, '1001')).toMatchObject([{ field: 'job', origin: { by: 'roster', change: 2 } }]);
	});

	test('a value that came with the document is the list’s to change; one that was entered here is asked about', async () => {
		enter('1001', { department: 'Dock' });
		const draft = chosen(ada, '1002,Ben Marsh,Yard,', cleo);
		const { conflicts, undisputed } = await preview(draft);
		expect(conflicts.map(({ person: one, field, here, roster }) => [one, field, here, roster])).toEqual([
			['1001', 'department', 'Dock', 'Packing']
		]);
		expect(undisputed.moved.map((move) => [move.person, Object.keys(move.fields)])).toEqual([
			['1001', ['job']],
			['1002', ['department']]
		]);
		const before = open().revision;
		expect(refusalOf(await takeOver(draft)).paths).toEqual(["$.conflicts['1001'].department"]);
		expect(open().revision).toBe(before);

		const key = conflictKey({ person: '1001', field: 'department' });
		valueOf(await takeOver({ ...draft, said: { ...draft.said, choices: [[key, 'here']] } }));
		expect(person('1001')).toMatchObject({ department: 'Dock', job: 'Picker' });
		expect(person('1002')).toMatchObject({ department: 'Yard' });
		// The same list a week later asks nothing; one that says something else does.
		expect((await preview(chosen(ada, '1002,Ben Marsh,Yard,', cleo))).conflicts.map(({ isKept }) => isKept)).toEqual([
			true
		]);
		const other = await preview(chosen('1001,Ada Quill,Cold store,Picker', ben, cleo));
		expect(other.conflicts.map(({ isKept, roster }) => [isKept, roster])).toEqual([[false, 'Cold store']]);
	});

	test('whoever was added here does not leave because a list does not name them', async () => {
		const entry = { id: 'T1', name: 'Tess Ward', department: 'Visitors' };
		valueOf(editRollout(id, 'put-entry', { collection: 'people', at: null, entry }, 'Nora'));
		const draft = chosen(ada, ben);
		const { conflicts, undisputed } = await preview(draft);
		expect(conflicts.map(({ person: one, kind }) => [one, kind])).toEqual([['T1', 'missing']]);
		expect(undisputed.left).toEqual(['1003']);
		const key = conflictKey({ person: 'T1', field: 'leavesOn' });
		valueOf(await takeOver({ ...draft, said: { ...draft.said, choices: [[key, 'here']] } }, '2027-01-08'));
		expect(person('T1')?.leavesOn).toBe(null);
		expect(person('1003')?.leavesOn).toBe('2027-01-08');
		// The last day came from a list: when she is named again it goes without a question.
		const back = chosenRoster(
			open(),
			'week.csv',
			bytesOf(lines(`${header},Last day`, `${ada},`, `${ben},`, `${cleo},`))
		);
		expect((await preview(back)).undisputed.moved).toEqual([
			{ person: '1003', fields: { leavesOn: ['2027-01-08', null] } }
		]);
	});
});

describe('a number that changed', () => {
	const draft = () => chosen('8001,Ada Quill,Packing,', ben, cleo);

	test('is given to the person everywhere, and taken back as one change', async () => {
		enter('1001', { job: 'Driver' });
		const said = { ...draft().said, renumber: [{ at: '1001', to: '8001' }] };
		const read = await preview({ ...draft(), said });
		expect(read.undisputed).toMatchObject({ joined: [], left: [] });
		expect(read.conflicts.map(({ person: one, field }) => [one, field])).toEqual([['8001', 'job']]);
		const choices = [[conflictKey({ person: '8001', field: 'job' }), 'here'] as const];
		valueOf(await takeOver({ ...draft(), said: { ...said, choices } }));
		expect(person('1001')).toBeUndefined();
		expect(person('8001')).toMatchObject({ name: 'Ada Quill', job: 'Driver' });
		expect(open().rollout.enrollment.bookings[0]?.person).toBe('8001');
		expect(open().rollout.privacy.consents[0]?.person).toBe('8001');
		valueOf(undo(id, 'Nora'));
		expect(open().rollout.privacy.consents[0]?.person).toBe('1001');
	});

	test('that somebody else has is refused', async () => {
		const said = {
			...draft().said,
			renumber: [
				{ at: '1001', to: '1002' },
				{ at: '9', to: '10' }
			]
		};
		const read = await previewOf(open(), { ...draft(), said }, today);
		expect(read.ok ? [] : read.faults.map(({ path }) => path)).toEqual(['$.renumber[0].to', '$.renumber[1].at']);
	});
});

describe('what was said of columns', () => {
	const odd = lines(
		'Number,Name,Job,Department',
		'1001,Ada Quill,Packing,Picker',
		'1002,Ben Marsh,Office,',
		'1003,Cleo Tarn,Office,'
	);
	const map = { columns: { Job: 'department', Department: 'job' } };

	test('is remembered for the next list with these headers, and forgotten when it is said no more', async () => {
		const first = chosenRoster(open(), 'odd.csv', bytesOf(odd));
		expect(first.readAs).toBeNull();
		const said = await sayOfRoster(open(), keepRoster(first), { ...first.said, map });
		if (!said.ok) throw new Error('refused');
		rememberColumns(said.value, 'Nora');
		const next = chosenRoster(open(), 'next.csv', bytesOf(odd.replace('Picker', 'Driver')));
		expect(next).toMatchObject({ readAs: 'odd.csv', said: { map } });
		expect((await preview(next)).answer.people[0]).toMatchObject({ department: 'Packing', job: 'Driver' });
		expect(chosenRoster(open(), 'other.csv', bytesOf(lines(header, ada))).readAs).toBeNull();
		rememberColumns({ ...next, said: { ...next.said, map: {} } }, 'Nora');
		expect(rosterMemory(id).shapes).toEqual([]);
	});

	test('goes with the rollout when it is erased', () => {
		const first = chosenRoster(open(), 'odd.csv', bytesOf(odd));
		rememberColumns({ ...first, said: { ...first.said, map } }, 'Nora');
		expect(store().fact(`roster of ${id}`)).toContain('odd.csv');
		valueOf(deleteRollout(id, 'Mill Lane Depot', 'Nora'));
		valueOf(eraseRollout(id, 'Mill Lane Depot'));
		expect(store().fact(`roster of ${id}`)).toBeUndefined();
	});
});
