import { expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import { entriesIn, whoIn } from './profile-form';
import { assignmentViews, profileViews, whoChoices } from './profiles';

const rollout = rolloutOf({
	areas: [{ id: 'yard', outside: true }, { id: 'hall' }],
	doors: [{ id: 'gate', name: 'Gate', from: 'yard', to: 'hall' }],
	doorGroups: [{ id: 'all', name: 'All doors', doors: ['gate'] }],
	schedules: [{ id: 'day', name: 'Days', week: { mon: ['07:00-19:00'] } }],
	people: [
		{ id: '1', name: 'Ada Quill', department: 'Dock', wave: 'w1' },
		{ id: '2', department: 'Dock', job: 'Lead' },
		{ id: '3', department: 'Office' }
	],
	accessProfiles: [{ id: 'floor', entries: [{ doorGroup: 'all', schedule: 'day' }] }, { id: 'spare' }],
	assignments: [
		{ id: 'a', who: { departments: ['Dock', 'Doc'], jobs: ['Lead'] }, accessProfile: 'floor' },
		{ id: 'b', who: { people: ['1'], waves: ['w1'] }, accessProfile: 'floor', approvedBy: 'Site manager' },
		{ id: 'c', who: {}, accessProfile: 'spare' },
		{ id: 'd', who: { everyone: true, departments: ['Nowhere'] }, accessProfile: 'spare' }
	],
	enrollment: { waves: [{ id: 'w1', name: 'First wave' }] }
});

test('a profile tells what it opens, and counts each person once however many assignments give it', () => {
	const [floor] = profileViews(rollout);
	expect(floor).toMatchObject({ name: 'floor', assignments: ['a', 'b'], people: 2 });
	expect(floor?.entries).toMatchObject([{ groupName: 'All doors', doors: ['Gate'], scheduleName: 'Days' }]);
});

test('an assignment tells whom it names in words, how many it matches, and what nobody bears', () => {
	expect(assignmentViews(rollout).map(({ whoWords, people, unmatched }) => ({ whoWords, people, unmatched }))).toEqual([
		{ whoWords: 'departments Dock, Doc, or job Lead', people: 2, unmatched: ['department Doc'] },
		{ whoWords: 'wave First wave, or Ada Quill', people: 1, unmatched: [] },
		{ whoWords: 'nobody', people: 0, unmatched: [] },
		{ whoWords: 'everyone', people: 3, unmatched: [] }
	]);
});

test('what an assignment names can be taken away again, also when nobody bears it', () => {
	const { departments, jobs, waves, people } = whoChoices(rollout);
	expect(departments.map(({ value, note }) => `${value} ${note}`)).toEqual([
		'Doc 0',
		'Dock 2',
		'Nowhere 0',
		'Office 1'
	]);
	expect(jobs).toEqual([{ value: 'Lead', label: 'Lead', note: '1' }]);
	expect(waves).toEqual([{ value: 'w1', label: 'First wave', note: '1' }]);
	expect(people[0]).toEqual({ value: '1', label: 'Ada Quill', note: '1, Dock' });
});

test('rows of a profile with nothing chosen are none; half a row is passed on to be refused', () => {
	const form = new FormData();
	const rows = [
		['all', 'day'],
		['', ''],
		['all', '']
	] as const;
	rows.forEach(([group, schedule], place) => {
		form.set(`group.${place}`, group);
		form.set(`schedule.${place}`, schedule);
	});
	expect(entriesIn(form)).toEqual([
		{ doorGroup: 'all', schedule: 'day' },
		{ doorGroup: 'all', schedule: '' }
	]);
});

test('only what was chosen is written; people may be ticked or typed', () => {
	const form = new FormData();
	expect(whoIn(form)).toEqual({});
	form.append('departments', 'Dock');
	form.append('people', '1');
	form.set('peopleLines', '2\r\n1\n');
	form.set('everyone', 'on');
	expect(whoIn(form)).toEqual({ everyone: true, people: ['1', '2'], departments: ['Dock'] });
});
